"""Model -> the script file that carries it to the browser; site_templates/js/narrow/model.js reads it."""

from __future__ import annotations

import json
from collections.abc import Iterable
from typing import Any

from kbgen.narrowing import assumed, wording
from kbgen.narrowing.fault import Cause, Fault
from kbgen.narrowing.model import CODE, SYMPTOM, Chances, Model, Observation


def as_json(model: Model) -> dict[str, Any]:
    """Return the model in the form that model.js reads (described at `load` there)."""
    hazards = _Numbered(one for fault in model.faults for one in (*fault.hazards, *_of_looks(fault)))
    return {
        "assumed": ASSUMED,
        "words": [list(pair) for pair in wording.WORDS] + [[0, wording.UNLIKELY]],
        "hazards": hazards.texts,
        "faults": [_fault(one, hazards) for one in model.faults],
        "observations": [_observation(one, hazards) for one in model.observations],
    }


ASSUMED = {
    "otherwise": {CODE: assumed.CODE_NOT_NAMED, SYMPTOM: assumed.NOT_NAMED},
    "timesIfNone": assumed.TIMES_IF_NONE,
    "judgedCases": assumed.JUDGED_CASES,
    "bitsWorthAsking": assumed.BITS_WORTH_ASKING,
    "normalQuantile": assumed.NORMAL_QUANTILE,
}


def script(model: Model) -> str:
    """Return a classic script that sets `kbgen.narrowData`: ASCII, without "<", as a string for `JSON.parse`."""
    data = json.dumps(as_json(model), ensure_ascii=False, separators=(",", ":"))
    literal = json.dumps(data).replace("<", "\\u003c")
    return f"(globalThis.kbgen = globalThis.kbgen || {{}}).narrowData = JSON.parse({literal});\n"


class _Numbered:
    """Texts that are written once and named by number."""

    def __init__(self, texts: Iterable[str]) -> None:
        self.texts = list(dict.fromkeys(texts))
        self._numbers = {text: number for number, text in enumerate(self.texts)}

    def of(self, texts: Iterable[str]) -> list[int]:
        return [self._numbers[text] for text in texts]


def _of_looks(fault: Fault) -> Iterable[str]:
    return (one for look in fault.looks for one in look.hazards)


def _fault(fault: Fault, hazards: _Numbered) -> list[Any]:
    times = None if fault.times is None else _short(fault.times)
    causes = [_cause(one) for one in fault.causes]
    return [fault.id, fault.title, fault.state, hazards.of(fault.hazards), times, int(fault.times_counted), causes]


def _cause(cause: Cause) -> list[Any]:
    return [cause.text, _short(cause.weight), cause.cases]


def _observation(one: Observation, hazards: _Numbered) -> list[Any]:
    chances = [_chances(chance) for chance in one.chances]
    return [one.name, one.kind, one.text, list(one.also), one.display, chances, _asked(one, hazards)]


def _chances(one: Chances) -> list[Any]:
    same = len(set(one.by_cause)) == 1
    return [one.fault, int(one.given), one.by_cause[0] if same else list(one.by_cause)]


def _asked(one: Observation, hazards: _Numbered) -> list[Any] | None:
    """How it is asked: the seconds alone, or with the look; None where it may not be proposed."""
    if not one.may_be_asked:
        return None
    if one.by_looking is None:
        return [one.seconds]
    look = one.by_looking.look
    found = [one.by_looking.fault, look.step, look.number, look.question, hazards.of(look.hazards), list(look.done_by)]
    return [one.seconds, *found]


def _short(number: float) -> float:
    return int(number) if float(number).is_integer() else number
