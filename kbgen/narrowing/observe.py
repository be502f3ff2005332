"""Faults -> model; symptoms that several procedures describe in the same words are one."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from kbgen.narrowing.assumed import (
    CODE_ALWAYS,
    CODE_SOMETIMES,
    LEAST,
    LISTED,
    MOST,
    NOT_NAMED,
)
from kbgen.narrowing.fault import Cause, Code, Fault, Symptom
from kbgen.narrowing.model import CODE, SYMPTOM, Chances, FoundBy, Model, Observation

ANOTHER = Fault(
    id="",
    title="Something that no procedure here describes",
    times=None,
    times_counted=False,
    causes=(Cause("", 1, 0, None),),
    symptoms=(),
)
"""What may be there beside the faults of a list, known by its empty id."""


@dataclass
class _Gathered:
    """A symptom in the procedures that describe it."""

    fault: int
    symptom: Symptom
    also: dict[str, None] = field(default_factory=dict)
    chances: dict[int, Chances] = field(default_factory=dict)
    looks: list[FoundBy] = field(default_factory=list)
    only_otherwise: bool = False


def model_of(faults: Iterable[Fault]) -> Model:
    """Build the model; the order of the faults given makes no difference."""
    ordered = tuple(sorted(faults, key=lambda fault: (fault.title.casefold(), fault.id)))
    return Model(ordered, (*_codes(ordered), *_symptoms(ordered)))


def allowing_for_another(model: Model) -> Model:
    """Add a fault that names no symptom and no code, because a list of faults is never complete."""
    return Model((*model.faults, ANOTHER), model.observations)


def same_words(text: str) -> str:
    """What two texts have in common that say the same in the same words, whatever the case and the marks."""
    return " ".join(re.findall(r"\w+", unicodedata.normalize("NFKC", text).casefold()))


def _codes(faults: Sequence[Fault]) -> tuple[Observation, ...]:
    found: dict[tuple[str, str], tuple[Code, dict[int, Chances]]] = {}
    for number, fault in enumerate(faults):
        for code in fault.codes:
            _, chances = found.setdefault((code.display, code.code), (code, {}))
            chance = CODE_ALWAYS if code.always else CODE_SOMETIMES
            chances.setdefault(number, Chances(number, False, (chance,) * len(fault.causes)))
    return tuple(
        Observation(f"{display}:{name}", CODE, _code_text(code), (), code.shown_by, tuple(chances.values()), None, True)
        for (display, name), (code, chances) in sorted(found.items(), key=lambda item: item[0])
    )


def _code_text(code: Code) -> str:
    return f"{code.code}: {code.text}" if code.text else code.code


def _symptoms(faults: Sequence[Fault]) -> tuple[Observation, ...]:
    found: dict[str, _Gathered] = {}
    for number, fault in enumerate(faults):
        looks = [FoundBy(number, look) for look in fault.looks]
        for symptom in fault.symptoms:
            one = found.setdefault(same_words(symptom.text) or symptom.text, _Gathered(number, symptom))
            one.also.update(dict.fromkeys(symptom.also))
            one.chances.setdefault(number, _chances(number, fault, symptom.id))
            one.looks += [found_by for found_by in looks if found_by.look.symptom == symptom.id]
            one.only_otherwise |= symptom.id in fault.not_as_it_stands
    made = [_observation(one, faults) for one in found.values()]
    return tuple(sorted(made, key=lambda one: (one.text.casefold(), one.name)))


def _observation(one: _Gathered, faults: Sequence[Fault]) -> Observation:
    quickest = min(one.looks, key=_how_quick, default=None)
    return Observation(
        name=f"{faults[one.fault].id}.{one.symptom.id}",
        kind=SYMPTOM,
        text=one.symptom.text,
        also=tuple(one.also),
        display="",
        chances=tuple(one.chances.values()),
        by_looking=quickest,
        may_be_asked=quickest is not None or not one.only_otherwise,
    )


def _how_quick(found: FoundBy) -> tuple[bool, int, int]:
    seconds = found.look.seconds
    return seconds is None, seconds or 0, found.fault


def _chances(number: int, fault: Fault, symptom: str) -> Chances:
    named = {name for cause in fault.causes for name in cause.shows or ()}
    by_cause = tuple(_chance(cause, symptom, named) for cause in fault.causes)
    return Chances(number, symptom in named, by_cause)


def _chance(cause: Cause, symptom: str, named: Iterable[str]) -> float:
    shows: Mapping[str, float] | None = cause.shows
    if shows is None or symptom not in named:
        return LISTED
    return min(max(shows.get(symptom, NOT_NAMED), LEAST), MOST)
