"""The tables of a run, in Markdown."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from .judge import Interval, Judged, duel, judge, reciprocal_rank, wilson
from .query import Query
from .run import LUNR, MINISEARCH, OURS, WITHOUT, Found

Kind = tuple[str, str]
ByKind = Mapping[str, Mapping[Kind, Sequence[Judged]]]


def judged(queries: Sequence[Query], found: Found) -> ByKind:
    """Judge every answer and sort the verdicts by engine and kind."""
    by_engine: dict[str, dict[Kind, list[Judged]]] = {}
    for engine, answers in found.items():
        kinds = by_engine.setdefault(engine, {})
        for query, answer in zip(queries, answers, strict=True):
            kinds.setdefault((query.corpus, query.kind), []).append(judge(query, answer))
    return by_engine


def best(results: ByKind, engines: Sequence[str], kind: Kind) -> str:
    """Return the engine with most right entries first in a kind, then with most in five; the first named of equals."""
    tried = [engine for engine in engines if engine in results]
    return max(tried, key=lambda engine: (_firsts(results[engine][kind]), _fives(results[engine][kind])))


def _firsts(verdicts: Sequence[Judged]) -> int:
    return sum(one.first for one in verdicts)


def _fives(verdicts: Sequence[Judged]) -> int:
    return sum(one.in_five for one in verdicts)


def comparison(results: ByKind) -> str:
    """Table: each kind with ours, stock lunr and the best setting of MiniSearch, and ours against the latter."""
    lines = [
        "| corpus | kind | n | first | in five | MRR | lunr first / five / MRR | MiniSearch first / five / MRR "
        "| wins : losses | sign test | against MiniSearch |",
        "| --- | --- | ---: | --- | --- | --- | --- | --- | ---: | ---: | --- |",
    ]
    return "\n".join([*lines, *(_row(results, kind) for kind in results[OURS])])


def _row(results: ByKind, kind: Kind) -> str:
    ours = results[OURS][kind]
    rival = results[best(results, MINISEARCH, kind)][kind]
    fought = duel(ours, rival)
    cells = (
        *kind,
        str(len(ours)),
        _shown(wilson(_firsts(ours), len(ours))),
        _shown(wilson(_fives(ours), len(ours))),
        _shown(reciprocal_rank(ours)),
        _short(results[LUNR][kind]),
        _short(rival),
        f"{fought.wins} : {fought.losses}",
        f"{fought.chance:.2g}",
        fought.verdict,
    )
    return f"| {' | '.join(cells)} |"


def _shown(figure: Interval) -> str:
    return f"{figure.value:.3f} ({figure.low:.3f}-{figure.high:.3f})"


def _short(verdicts: Sequence[Judged]) -> str:
    count = len(verdicts)
    mean = reciprocal_rank(verdicts).value
    return f"{_firsts(verdicts) / count:.3f} / {_fives(verdicts) / count:.3f} / {mean:.3f}"


def worth(results: ByKind) -> str:
    """Table: success at first of each kind, with everything and without each part."""
    head = f"| corpus | kind | all | {' | '.join(f'without {part}' for part in WITHOUT)} |"
    lines = [head, "| --- | --- |" + " --- |" * (1 + len(WITHOUT))]
    return "\n".join([*lines, *(_worth_row(results, kind) for kind in results[OURS])])


def _worth_row(results: ByKind, kind: Kind) -> str:
    whole = results[OURS][kind]
    cells = [*kind, f"{_firsts(whole) / len(whole):.3f}", *_differences(results, kind)]
    return f"| {' | '.join(cells)} |"


def _differences(results: ByKind, kind: Kind) -> Iterator[str]:
    whole = results[OURS][kind]
    for part in WITHOUT:
        without = results[f"{OURS}: {part}"][kind]
        fought = duel(whole, without)
        share = f"{_firsts(without) / len(without):.3f}"
        yield share if fought.verdict == "no difference" else f"**{share}** ({fought.losses - fought.wins:+})"


def settings(results: ByKind) -> str:
    """List which setting of MiniSearch was the best in how many kinds."""
    chosen = [best(results, MINISEARCH, kind) for kind in results[OURS]]
    return "\n".join(f"- {one.partition(': ')[2]}: best in {chosen.count(one)} kinds" for one in MINISEARCH)
