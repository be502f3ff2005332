"""The account of a judgement: how many of each kind, why what is no danger was reported, and what nobody can see."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence

from tests.proof.judgement import FALSE_ALARM, MISSED, UNSEEN, VERDICTS, Judged
from tests.proof.mutants import KINDS

SAID_IS_PROVED = (
    "The rules prove what is said: a step in reach must ask for verified, even where all is proved already."
)
OTHER_NAME = "The right point was worked on under the name of another source; in the world nothing is different."
TEXT_ALONE = "Only the words tell which answer leads where."

# Why kbgen speaks where the judge sees no danger.
FALSE_ALARMS: Mapping[str, str] = {
    "need weakened to any": SAID_IS_PROVED,
    "need weakened to released": SAID_IS_PROVED,
    "hands in where it was outside": SAID_IS_PROVED,
    "enclosure open where it was outside": SAID_IS_PROVED,
    "drop out-of-reach": "Live work at the step excuses what is said to be live, not a source in any state beside it.",
    "outside claimed of hands in": "Live work from outside contradicts itself.",
    "wrong source": OTHER_NAME,
    "wrong source of a run": "A source that is not named beforehand, or that is said to be live and was not touched.",
    "wrong target": "All answers lead to one step, or a way is judged that a limit keeps from being walked.",
    "drop answer": "A question with one answer is refused, though nobody comes to harm.",
    "wrong unit of a reading": "The bands are whole, but the formula gives another dimension.",
    "unsaid loss": "The rules ask what any feedback loses that is disconnected, the judge what a swapped unit does.",
    "source not named beforehand": "The steps still hold it off; whoever prepares the work does not know of it.",
}

# What only the author can know, so that neither the judge nor a rule can see it.
AUTHORS_KNOWLEDGE: Mapping[str, str] = {
    "drop shut-down": "The stop is for the machine's sake, no isolation follows.",
    "drop energise": "Something else brings the energy back, or a call ends the job.",
    "drop discharge wait": "Nobody wrote down how fast gas thins out.",
    "shorten discharge wait": "The time left is still long enough, or nobody wrote down how fast gas thins out.",
    "wrong source": "The act is not needed for what follows.",
    "wrong point": "Stops, releases and tests work on the whole source, whatever point they name.",
    "proof by other means": "The other means shows it as well.",
    "raised limit of a proof": "Below 60 V it is safe; which pressure or which share of gas is, the author knows.",
    "hazard one step late": "Hazards of dead work stand where the author wants them.",
    "need weakened to any": "The person stands outside.",
    "need weakened to released": "The person stands outside.",
    "dead claimed of what is live": "The sequence itself says what it needs of the sources that it takes.",
    "outside claimed of hands in": "Where the hands are, the author knows.",
    "hands in where it was outside": "Everything within reach is proved absent there.",
    "enclosure open where it was outside": "Everything electrical is proved absent there.",
    "jump past an isolation": "Nobody reaches in after it.",
    "back without isolating again": "The energy is still proved absent on all ways to it.",
    "wrong target": TEXT_ALONE,
    "swapped answers": TEXT_ALONE,
    "drop answer": TEXT_ALONE,
    "drop limit of a loop": "The limit of another way in the loop ends it.",
    "drop undo": "The job ends with a call or an order, where the page tells what is still open.",
    "branch past an undo": "The job ends with a call or an order, where the page tells what is still open.",
    "undo what was not changed": "Nothing undoes it: the job ends with an order.",
    "overlap of bands": "The overlap lies outside of what the instrument can show.",
    "limit a thousand times off": "The band reaches beyond what the instrument can show.",
    "drop limit of a band": "The outermost band has no end where the instrument ends.",
    "wrong unit of a reading": "Numbers without units fit any unit.",
    "slow step": "The time is still enough.",
    "earlier stage": "The time is still enough, or nobody wrote down when the stage begins.",
    "window on later work": "The time is still enough.",
    "source never thought of": "What nobody wrote down nobody can check.",
    "feeder unknown": "What nobody wrote down nobody can check.",
}


def account(judged: Sequence[Judged]) -> Iterator[str]:
    """The lines of the account."""
    counts = Counter((one.mutant.kind, one.verdict) for one in judged)
    yield f"{'':40}" + "".join(f"{verdict:>13}" for verdict in VERDICTS)
    for kind in KINDS:
        yield f"{kind:40}" + "".join(f"{counts[kind, verdict]:13}" for verdict in VERDICTS)
    yield f"{'all':40}" + "".join(f"{sum(one.verdict == verdict for one in judged):13}" for verdict in VERDICTS)
    yield from _listed(judged, MISSED, {})
    yield from _listed(judged, FALSE_ALARM, FALSE_ALARMS)
    yield from _listed(judged, UNSEEN, AUTHORS_KNOWLEDGE)


def summary(judged: Sequence[Judged]) -> str:
    """The account in a line."""
    counts = Counter(one.verdict for one in judged)
    return f"{len(judged)} mutants of {len(KINDS)} kinds: " + ", ".join(f"{counts[one]} {one}" for one in VERDICTS)


def unexplained(judged: Sequence[Judged], verdict: str, reasons: Mapping[str, str]) -> list[str]:
    """The mutants with a verdict whose kind has no stated reason."""
    return [told(one) for one in judged if one.verdict == verdict and one.mutant.kind not in reasons]


def told(one: Judged) -> str:
    """A mutant in a line: the defect, what was reported, the first danger."""
    danger = f"; {one.dangers[0].told()}" if one.dangers else ""
    return f"{one.mutant}; reported: {', '.join(one.codes) or 'nothing'}{danger}"


def _listed(judged: Sequence[Judged], verdict: str, reasons: Mapping[str, str]) -> Iterator[str]:
    for kind in KINDS:
        alike = [one for one in judged if one.mutant.kind == kind and one.verdict == verdict]
        if alike:
            yield ""
            yield f"{verdict}, {kind}: {reasons.get(kind, '')}"
            yield from (f"  {told(one)}" for one in alike)
