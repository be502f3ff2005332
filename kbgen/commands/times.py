"""kbgen times: how long procedures take, for planning and for programs."""

from __future__ import annotations

import argparse
import json
import sys
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from kbgen.analysis.spent import Spent, about
from kbgen.analysis.times import JobTime, OutcomeTime, PersonTime, Times, times
from kbgen.commands.output import say
from kbgen.commands.places import by_folder
from kbgen.examine import open_case
from kbgen.library.folder import Folder, read_tables
from kbgen.model.procedure import Procedure
from kbgen.pages.time_table import NOT_COMPUTED, basis_words, hours, share_words

NAME = "times"
HELP = "Show how long procedures take to each outcome, and whom they bind."
ABOUT = (
    "Shortest and longest times hold for all paths; expected times, shares and person-hours are estimates from the "
    "weights of the causes and the certainties that the author states. In JSON all times are in seconds. "
    "Exit code 0: all procedures could be read; 1: some have errors, which kbgen check shows; 2: wrong use."
)


@dataclass(frozen=True)
class Timed:
    """A procedure with its file and its times, None where they cannot be computed."""

    file: str
    procedure: Procedure
    times: Times | None


def arguments(command: argparse.ArgumentParser) -> None:
    """Declare the arguments."""
    command.epilog = ABOUT
    command.add_argument("paths", nargs="*", type=Path, help="a knowledge base, or files in one (default: procedures)")
    command.add_argument(
        "--format", choices=tuple(FORMATS), default="text", help="text for people, json for programs (default: text)"
    )


def run(options: argparse.Namespace) -> int:
    """Print the times of all procedures that were asked for."""
    paths: list[Path] = options.paths or [Path("procedures")]
    missing = [path for path in paths if not path.exists()]
    if missing:
        print(f"kbgen: there is no file or folder “{missing[0]}”.", file=sys.stderr)
        return 2
    timed: list[Timed] = []
    broken: list[str] = []
    for folder, asked in by_folder(paths).folders.items():
        for one in _timed(folder, [path.resolve() for path in asked]):
            if isinstance(one, Timed):
                timed.append(one)
            else:
                broken.append(one)
    for file in broken:
        print(f"kbgen: {file} has errors: kbgen check shows them.", file=sys.stderr)
    say(FORMATS[options.format](timed))
    return 1 if broken else 0


def _timed(folder: Folder, asked: Sequence[Path]) -> Iterator[Timed | str]:
    """The times of the procedures that were asked for, or the name of a file that is not sound."""
    shared, _ = read_tables(folder, folder.table_files())
    for file in folder.procedure_files():
        path = (folder.root / file.path).resolve()
        if not any(path == one or one in path.parents for one in asked):
            continue
        case, _ = open_case(folder, file, shared)
        if case is None or case.decoded.unsound:
            yield folder.shown(file.path)
        else:
            yield Timed(folder.shown(file.path), case.procedure, times(case.procedure, case.route, case.walk))


def _as_text(timed: Iterable[Timed]) -> Iterator[str]:
    for one in timed:
        yield "\n".join([f"{one.file}: {one.procedure.title}", *_lines(one), ""])


def _lines(one: Timed) -> Iterator[str]:
    if one.times is None:
        yield f"  {NOT_COMPUTED}"
        return
    yield f"  {'shortest':>10}  {'expected':>10}  {'longest':>10}"
    yield f"  {_figures(one.times.whole)}  whole job"
    for job in one.times.outcomes:
        words = f"{job.place.number} {job.place.key} ({job.end.result.value}, {share_words(job.share)})"
        yield f"  {_figures(job)}  {words}"
    for person in one.times.persons:
        waiting = f", {hours(person.spent.waiting)} of it waiting" if person.spent.waiting else ""
        yield f"  {hours(person.spent.whole):>10}  person-hours of {person.persons} × {person.qualification}{waiting}"
    yield f"  The causes weigh {basis_words(one.procedure.causes)}."
    if one.times.unstated:
        yield f"  Steps without a time: {', '.join(one.times.unstated)}."


def _figures(job: JobTime) -> str:
    expected = about(job.expected.whole) if job.expected else "-"
    return f"{about(job.shortest.whole):>10}  {expected:>10}  {about(job.longest.whole):>10}"


def _as_json(timed: Iterable[Timed]) -> Iterator[str]:
    yield json.dumps({"procedures": [_procedure(one) for one in timed]}, ensure_ascii=False, indent=2)


def _procedure(one: Timed) -> Mapping[str, Any]:
    return {
        "file": one.file,
        "id": str(one.procedure.id),
        "title": str(one.procedure.title),
        "basis": basis_words(one.procedure.causes),
        "times": _times(one.times) if one.times else None,
    }


def _times(found: Times) -> Mapping[str, Any]:
    return {
        "whole-job": _job(found.whole),
        "outcomes": [_outcome(one) for one in found.outcomes],
        "person-time": [_person(one) for one in found.persons],
        "steps-without-time": list(found.unstated),
    }


def _outcome(one: OutcomeTime) -> Mapping[str, Any]:
    return {
        "step": one.place.key,
        "number": one.place.number,
        "result": one.end.result.value,
        "share": round(one.share, 6),
        **_job(one),
    }


def _job(one: JobTime) -> Mapping[str, Any]:
    return {
        "shortest": _spent(one.shortest),
        "expected": _spent(one.expected) if one.expected else None,
        "longest": _spent(one.longest),
    }


def _person(one: PersonTime) -> Mapping[str, Any]:
    return {"qualification": one.qualification, "persons": one.persons, **_spent(one.spent)}


def _spent(spent: Spent) -> Mapping[str, int]:
    return {"whole": spent.whole, "working": spent.working, "waiting": spent.waiting}


FORMATS = {"text": _as_text, "json": _as_json}
