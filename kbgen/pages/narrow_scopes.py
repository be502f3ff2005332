"""Digests -> the faults among which one is sought: those of a family, or those that a display shows codes of."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from kbgen.analysis.digest import Digest, SymptomLook
from kbgen.model.shared import Shared
from kbgen.model.words import DocumentState
from kbgen.narrowing.fault import Cause, Code, Fault, Look, Symptom
from kbgen.narrowing.model import Model
from kbgen.narrowing.observe import allowing_for_another, model_of
from kbgen.pages import addresses, wording
from kbgen.pages.hazards import hazard_views

_HAZARDS_SHOWN = 3


@dataclass(frozen=True)
class Scope:
    """Faults among which one is sought.

    ``page`` is its address, ``data`` the name of its file and ``listed`` the address of the page that lists the same
    procedures. ``known`` holds the faults that procedures describe; ``model``, with which it is calculated, allows for
    another.
    """

    page: str
    data: str
    listed: str
    title: str
    known: Model
    model: Model


@dataclass(frozen=True)
class Scopes:
    """All of them: by family, and by the displays that show codes of more than one family.

    ``of_display`` gives for each display with a procedure the page to narrow down on.
    """

    all: tuple[Scope, ...]
    of_family: Mapping[str, str]
    of_display: Mapping[str, str]


def scopes_of(shared: Shared, digests: Iterable[Digest]) -> Scopes:
    """Put the procedures that are not withdrawn into scopes."""
    live = [one for one in digests if one.state != DocumentState.WITHDRAWN.value]
    faults = {digest.id: _fault(digest, shared) for digest in live}
    families = _grouped((digest.family, digest) for digest in live)
    displays = _grouped((code.display, digest) for digest in live for code in digest.codes)
    of_family = {name: addresses.narrow_family(name) for name in families}
    of_display = {name: _page_of(name, using, of_family) for name, using in displays.items()}
    made = [
        _scope(page, addresses.family(name), _family_title(name, shared), families[name], faults)
        for name, page in of_family.items()
    ]
    made += [
        _scope(page, addresses.display(name), _display_title(name, shared), displays[name], faults)
        for name, page in of_display.items()
        if page == addresses.narrow_display(name)
    ]
    return Scopes(tuple(made), of_family, of_display)


def _grouped(pairs: Iterable[tuple[str, Digest]]) -> dict[str, list[Digest]]:
    found: dict[str, dict[str, Digest]] = {}
    for name, digest in pairs:
        found.setdefault(name, {})[digest.id] = digest
    return {name: list(found[name].values()) for name in sorted(found)}


def _page_of(display: str, using: Sequence[Digest], of_family: Mapping[str, str]) -> str:
    """The page of a display; that of the family where it shows the codes of one family alone."""
    families = {digest.family for digest in using}
    return of_family[families.pop()] if len(families) == 1 else addresses.narrow_display(display)


def _family_title(name: str, shared: Shared) -> str:
    return str(shared.families[name].name) if name in shared.families else name


def _display_title(name: str, shared: Shared) -> str:
    return str(shared.displays[name].name) if name in shared.displays else name


def _scope(page: str, listed: str, title: str, digests: Iterable[Digest], faults: Mapping[str, Fault]) -> Scope:
    data = page.removesuffix(".html")
    known = model_of(faults[digest.id] for digest in digests)
    return Scope(page, f"{data}.js", listed, title, known, allowing_for_another(known))


def _fault(digest: Digest, shared: Shared) -> Fault:
    figures = digest.figures
    ids = figures.symptom_ids
    released = digest.state == DocumentState.APPROVED.value
    return Fault(
        id=digest.id,
        title=digest.title,
        times=figures.times,
        times_counted=figures.times_counted,
        causes=tuple(_causes(digest)),
        symptoms=tuple(Symptom(name, one.text, one.also) for name, one in zip(ids, digest.symptoms, strict=True)),
        codes=tuple(_codes(digest, shared)),
        looks=tuple(_look(one, ids, shared) for one in figures.looks),
        not_as_it_stands=tuple(ids[number] for number in figures.not_as_it_stands),
        state="" if released else wording.DOCUMENT[DocumentState(digest.state)],
        hazards=_hazards(digest.hazards, shared)[:_HAZARDS_SHOWN],
    )


def _causes(digest: Digest) -> Iterator[Cause]:
    ids = digest.figures.symptom_ids
    for text, one in zip(digest.causes, digest.figures.causes, strict=True):
        shows = None if one.shows is None else {ids[number]: chance for number, chance in one.shows}
        yield Cause(text, one.weight, one.cases, shows)


def _codes(digest: Digest, shared: Shared) -> Iterator[Code]:
    for one, always in zip(digest.codes, digest.figures.always, strict=True):
        alarm = shared.alarms.get((one.display, one.code))
        name = str(shared.displays[one.display].name) if one.display in shared.displays else one.display
        yield Code(one.display, one.code, always, str(alarm.text) if alarm else "", name)


def _look(one: SymptomLook, ids: Sequence[str], shared: Shared) -> Look:
    done_by = tuple(str(shared.qualifications[name].name) for name in one.done_by if name in shared.qualifications)
    return Look(
        ids[one.symptom], one.step, one.number, one.question, one.seconds, _hazards(one.hazards, shared), done_by
    )


def _hazards(names: Iterable[str], shared: Shared) -> tuple[str, ...]:
    return tuple(f"{view.word}: {view.what}" for view in hazard_views(names, shared))
