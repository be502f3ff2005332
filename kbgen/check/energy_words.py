"""The words that findings about energy use: states, steps, and how a source came to be as it is on a path."""

from __future__ import annotations

from collections.abc import Iterator

from kbgen.analysis.energy import Followed, Path
from kbgen.diagnostics import Label
from kbgen.model.steps import Energise, EnergyStep, Prove, Unlock
from kbgen.model.words import EnergyState, Person
from kbgen.route.route import Place, Route

from .told_path import told

STATE = {
    EnergyState.LIVE: "live",
    EnergyState.SHUT_DOWN: "shut down",
    EnergyState.ISOLATED: "isolated",
    EnergyState.LOCKED: "locked off",
    EnergyState.RELEASED: "released",
    EnergyState.VERIFIED: "proved safe by a test",
}

_PERSON = {
    Person.OUTSIDE: "",
    Person.ENCLOSURE_OPEN: " The enclosure is open there.",
    Person.HANDS_IN: " Hands are in the machine there.",
}


def named(place: Place) -> str:
    """A step with its number, as it stands on the page."""
    return f"{place.number} “{place.step.id}”"


def where_the_person_is(place: Place) -> str:
    """A sentence on the person at a step, or nothing where the person stands outside."""
    return _PERSON[place.person] if place.person else ""


def told_with_energy(followed: Followed, source: str, path: Path) -> str:
    """Tell a path with the steps that act on a source or on what feeds it, and what the last of them did to it."""
    return f"{told(followed.walk, path, followed.circuit.concerns)}, {_how_it_came(followed, source, path)}"


def _how_it_came(followed: Followed, source: str, path: Path) -> str:
    decisive = last_act(followed, path)
    if decisive is None:
        return f"where nothing brings “{source}” under control"
    if isinstance(decisive.step, Energise):
        return f"while “{decisive.source}” was last brought back at {named(decisive)}"
    if isinstance(decisive.step, Unlock):
        return f"while the lock of “{decisive.source}” was taken off at {named(decisive)}"
    if isinstance(decisive.step, Prove):
        return f"where {named(decisive)} tested it"
    return f"where the last step on it is {named(decisive)}"


def last_act(followed: Followed, path: Path) -> Place | None:
    """The last step of a path, its end left out, that acts on a source of the circuit."""
    places = (followed.walk.places[key] for key, way in reversed(path) if way is not None)
    return next((one for one in places if isinstance(one.step, EnergyStep) and followed.circuit.concerns(one)), None)


def run_label(route: Route, place: Place) -> Iterator[Label]:
    """For a step of a shared sequence the place at which this procedure runs it."""
    outer = route.places.get(place.key.split(".")[0])
    if outer is not None and outer is not place:
        yield Label(outer.step.id.at, f"step {named(outer)} runs the sequence here")
