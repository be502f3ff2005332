"""Rules on more cases than the example on their page: each changes the example and names what is then found."""

from __future__ import annotations

from pathlib import Path

import pytest

from kbgen.cache import no_cache
from kbgen.examine import examine
from tests.check.knowledge_base import SLIPS, STANDS, TABLES, KnowledgeBase

END_OF_CALL = """        outcome: It cannot be told from outside, or voltage was found.
        result: escalate
        contact: maintenance-lead
        report: [What was seen, What the tester showed]
"""
TIGHTEN_LIMIT = "        at-most: 2\n        after-that: hand-over\n"
OPEN_WATCH = '          - {id: turns, answer: "Yes, the drum turns", go: isolate, symptom: drum-turns}\n'
WET_ANSWERS = """          - {id: wet, answer: "Yes", go: clean, confirms: [wet-drum]}
          - {id: dry, answer: "No", go: tension}
"""
STANDS_CODE = "  - {display: line-panel, code: N-12, raised: sometimes}\n"
WATCH_TAKES = "        picture: drum\n"
LAST_TELL_APART = '            - {answer: "No, drum and belt stand still", procedure: belt-stands}\n'

BAD = [
    ("KB109", SLIPS, "do: Wipe drum and belt dry.", "do: See [the maker](https://example.invalid/) first."),
    ("KB109", TABLES, "avoid: Isolate, lock and prove dead", "avoid: <script>x</script> Isolate, lock and prove dead"),
    (
        "KB201",
        SLIPS,
        "contact: maintenance-lead\n        report: [How far",
        "contact: nobody\n        report: [How far",
    ),
    ("KB201", SLIPS, "not-this}", "not-that}"),
    ("KB201", TABLES, "points: [q1]", "points: [q2]"),
    ("KB201", TABLES, "            not-proved: still-live", "            not-proved: fixed"),
    ("KB202", SLIPS, "{id: worn-lagging, text", "{id: wet-drum, text"),
    ("KB202", SLIPS, "{id: dry, answer", "{id: wet, answer"),
    ("KB202", STANDS, "id: belt-stands\n", "id: belt-slips\n"),
    ("KB203", SLIPS, "file: pictures/drum.svg", "file: belt-slips.yaml"),
    ("KB203", SLIPS, "file: pictures/drum.svg", "file: pictures"),
    ("KB204", SLIPS, "number: 2, x: 0.7", "number: 1, x: 0.7"),
    ("KB204", SLIPS, WATCH_TAKES, "        callouts: [1]\n"),
    ("KB205", SLIPS, "  hazards: [nip-point, shock]", "  hazards: [shock]"),
    ("KB205", SLIPS, "  parts:\n    - {part: drum-lagging, why: Only if the lagging is worn.}\n", "  parts: none\n"),
    ("KB206", SLIPS, "picture: drum\n", "note: Stand clear.\n"),
    (
        "KB206",
        SLIPS,
        "temporary-changes:\n",
        "set-ups: [{id: lamp, text: Lamp hung up, takes: 1 min}]\ntemporary-changes:\n",
    ),
    ("KB207", SLIPS, "proved: guard-off, not-proved: call}", "proved: guard-off, not-proved: call, other: call}"),
    ("KB207", SLIPS, "{running: fixed}", "{run: fixed}"),
    (
        "KB207",
        SLIPS,
        "        with: {supply: conveyor-mains}\n        outcomes: {running",
        "        outcomes: {running",
    ),
    (
        "KB207",
        SLIPS,
        "with: {supply: conveyor-mains}\n        outcomes: {running",
        "with: {main: conveyor-mains}\n        outcomes: {running",
    ),
    ("KB208", TABLES, "sign: W025", "sign: M004"),
    ("KB208", "tables/site.yaml", "sign: M008", "sign: W012"),
    ("KB209", SLIPS, "  variants: all", "  variants: [belt-tension]"),
    ("KB209", SLIPS, "go: isolate, symptom: drum-turns}", "go: isolate, variant: chain-tension}"),
    ("KB209", SLIPS, WATCH_TAKES, "        picture: drum\n        only: [chain-tension]\n"),
    (
        "KB209",
        SLIPS,
        WATCH_TAKES,
        "        picture: drum\n        before-stage: {display: line-panel, code: N-12, stage: stopped}\n",
    ),
    (
        "KB209",
        SLIPS,
        WATCH_TAKES,
        "        picture: drum\n        before-stage: {display: line-panel, code: N-99, stage: alarm}\n",
    ),
    ("KB209", TABLES, "variant: screw-tension", "variant: chain-tension"),
    ("KB209", TABLES, "    fits: [belt-conveyor]\n", "    fits: [belt-conveyor]\n    variants: [chain-tension]\n"),
    ("KB210", SLIPS, "do: Wipe drum and belt dry.", "do: See [that](procedure:belt-hums)."),
    ("KB210", SLIPS, "do: Wipe drum and belt dry.", "do: See [that](procedure:belt-stands#nowhere)."),
    ("KB210", TABLES, 'stand still", procedure: belt-stands', 'stand still", procedure: belt-hums'),
    (
        "KB301",
        SLIPS,
        '- {id: stands, answer: "No, both stand still", go: not-this}',
        '- {id: stands, answer: "No, both stand still", go: call}',
    ),
    ("KB302", SLIPS, END_OF_CALL, "        do: Ask the maintenance lead.\n"),
    (
        "KB302",
        SLIPS,
        END_OF_CALL,
        "        do: Ask them.\n        go: wait-here\n      - id: wait-here\n        do: Stay.\n        go: call\n",
    ),
    ("KB303", SLIPS, TIGHTEN_LIMIT, "        at-most: 2\n"),
    ("KB303", SLIPS, "        takes: 5 min\n        go: guard-on\n", "        takes: 5 min\n        go: wet\n"),
    ("KB303", SLIPS, "cannot-tell: {go: call}", "cannot-tell: {go: watch}"),
    ("KB304", SLIPS, WET_ANSWERS, WET_ANSWERS.replace('"No"', '" yes "')),
    (
        "KB304",
        SLIPS,
        WET_ANSWERS,
        WET_ANSWERS.replace("go: tension", "go: clean").replace(", confirms: [wet-drum]", ""),
    ),
    ("KB304", SLIPS, "answer: Too slack,", "answer: tight  enough,"),
    ("KB305", SLIPS, "    person: hands-in\n", ""),
    ("KB305", TABLES, "        energy: {supply: released}\n", ""),
    ("KB306", SLIPS, "        orders: [drum-lagging]\n", ""),
    ("KB306", SLIPS, "        procedure: belt-stands\n", ""),
    ("KB306", SLIPS, "        causes: [slack-belt, wet-drum]\n", ""),
    ("KB307", SLIPS, "from: 0, to: 20, accepted", "accepted"),
    ("KB307", SLIPS, "from: 0, to: 20, accepted", "from: 0, above: 0, to: 20, accepted"),
    ("KB307", SLIPS, "from: 0, to: 20, accepted", "from: 0, to: 20, below: 20, accepted"),
    ("KB402", SLIPS, "approvals: [{role", "approvals: none # [{role"),
    ("KB403", TABLES, LAST_TELL_APART, '            - {answer: "No", procedure: belt-slips}\n'),
    ("KB404", "addresses.txt", "belt-slips#wet\n", "belt-slips#wet\nbelt-creaks\n"),
    ("KB404", TABLES, "kbgen: 1\n", "kbgen: 1\nredirects: [{from: belt-creaks, to: belt-hums}]\n"),
]

GOOD = [
    (
        "KB109",
        SLIPS,
        "do: Wipe drum and belt dry.",
        "do: Wipe *drum* and **belt** dry, see [that](procedure:belt-stands).",
    ),
    ("KB201", SLIPS, "        takes: 5 min\n        go: guard-on\n", "        takes: 5 min\n        go: next\n"),
    ("KB202", SLIPS, "- {id: wet, answer", "- {id: turns, answer"),
    ("KB204", SLIPS, WATCH_TAKES, "        picture: drum\n        callouts: [1, 2]\n"),
    ("KB206", SLIPS, "  ppe: [safety-shoes]", "  ppe: [safety-shoes, eye-protection]"),
    ("KB209", SLIPS, "go: isolate, symptom: drum-turns}", "go: isolate, variant: screw-tension}"),
    (
        "KB209",
        SLIPS,
        WATCH_TAKES,
        "        picture: drum\n        before-stage: {display: line-panel, code: N-12, stage: alarm}\n",
    ),
    ("KB210", SLIPS, "do: Wipe drum and belt dry.", "do: See [that](procedure:belt-stands#guard)."),
    ("KB303", SLIPS, "cannot-tell: {go: call}", "cannot-tell: {go: watch, at-most: 2, after-that: call}"),
    ("KB304", SLIPS, WET_ANSWERS, WET_ANSWERS.replace("go: tension", "go: clean")),
    ("KB307", SLIPS, "above: 20, to: 500, go", "above: 20, go"),
    ("KB403", STANDS, STANDS_CODE, ""),
    ("KB403", STANDS, "state: draft", "state: withdrawn"),
    ("KB404", TABLES, "kbgen: 1\n", "kbgen: 1\nredirects: [{from: belt-creaks, to: belt-slips#wet}]\n"),
]


@pytest.mark.parametrize(("code", "file", "good", "bad"), BAD)
def test_is_found(code: str, file: str, good: str, bad: str, tmp_path: Path) -> None:
    base = KnowledgeBase.copy_to(tmp_path)
    if file == "addresses.txt":
        base.publish()
    assert base.change(file, good, bad).found(code)


@pytest.mark.parametrize(("code", "file", "before", "after"), GOOD)
def test_is_not_found(code: str, file: str, before: str, after: str, tmp_path: Path) -> None:
    assert not KnowledgeBase.copy_to(tmp_path).change(file, before, after).found(code)


def test_each_endless_loop_is_reported(tmp_path: Path) -> None:
    base = KnowledgeBase.copy_to(tmp_path)
    base.change(SLIPS, TIGHTEN_LIMIT, "")
    base.change(SLIPS, "        takes: 5 min\n        go: guard-on\n", "        takes: 5 min\n        go: wet\n")
    messages = [one.message for one in base.found("KB303")]
    assert messages == [
        "This loop has no limit: 4 wet -> 5 clean -> 4 wet.",
        "This loop has no limit: 6 tension -> 7 tighten -> 6 tension.",
    ]


def test_a_dead_end_tells_the_way_that_leads_there(tmp_path: Path) -> None:
    base = KnowledgeBase.copy_to(tmp_path).change(SLIPS, END_OF_CALL, "        do: Ask the maintenance lead.\n")
    assert [one.message for one in base.found("KB302")] == [
        "Step 15, “call”, leads nowhere: start -> 1 watch -> 15 call."
    ]


def test_a_loop_without_exit_names_its_steps(tmp_path: Path) -> None:
    trap = "        do: Ask the lead.\n        go: stay\n      - id: stay\n        do: Wait.\n        go: call\n"
    base = KnowledgeBase.copy_to(tmp_path).change(SLIPS, END_OF_CALL, trap)
    (finding,) = base.found("KB302")
    assert finding.message == "From step 15, “call”, no outcome can be reached."
    assert [label.text for label in finding.labels] == ["step 16 belongs to it"]


def test_a_misspelt_name_is_met_with_the_right_one(tmp_path: Path) -> None:
    base = KnowledgeBase.copy_to(tmp_path).change(SLIPS, "not-available: {go: tighten}", "not-available: {go: tigthen}")
    (finding,) = base.found("KB201")
    assert finding.help == "Did you mean “tighten”?"
    assert base.text(SLIPS).splitlines()[finding.at.line][finding.at.column : finding.at.end_column] == "tigthen"


def test_shared_code_without_any_question_concerns_both_procedures(tmp_path: Path) -> None:
    base = KnowledgeBase.copy_to(tmp_path)
    text = base.text(TABLES)
    start, end = text.index("        tell-apart:"), text.index("      - code: N-14")
    base.write(TABLES, text[:start] + text[end:])
    assert [one.at.path for one in base.found("KB403")] == [SLIPS, STANDS]


@pytest.mark.parametrize(
    ("file", "before", "after"),
    [
        (SLIPS, "kbgen: 1\n", "# Read by the fitters in autumn.\nkbgen: 1\n"),
        (SLIPS, "        do: Wipe drum and belt dry.\n", "        do:   'Wipe drum and belt dry.'   # by hand\n"),
        (SLIPS, "    - {tool: spanner-24}\n", "\n    -   tool: spanner-24\n"),
        (SLIPS, "review: {last: 2026-09-14, every: 12 months}", "review: {last: 2026-10-14, every: 12 months}"),
        (TABLES, "    name: Flashlight", "    name: Torch"),
    ],
)
def test_edits_that_leave_the_content_alone_keep_the_approval(
    file: str, before: str, after: str, tmp_path: Path
) -> None:
    assert not KnowledgeBase.copy_to(tmp_path).change(file, before, after).found("KB402")


@pytest.mark.parametrize(
    ("file", "before", "after"),
    [
        (SLIPS, "weight: 6", "weight: 7"),
        (TABLES, "Press start once, then stop.", "Press start twice, then stop."),
        (TABLES, "Touching live terminals kills.", "Touching live terminals hurts."),
        (TABLES, "magnitude: 400 V AC", "magnitude: 230 V AC"),
    ],
)
def test_edits_of_the_content_and_of_what_it_relies_on_void_the_approval(
    file: str, before: str, after: str, tmp_path: Path
) -> None:
    (finding,) = KnowledgeBase.copy_to(tmp_path).change(file, before, after).found("KB402")
    assert finding.at.path == SLIPS


def test_reviews_are_not_judged_without_a_day(tmp_path: Path) -> None:
    base = KnowledgeBase.copy_to(tmp_path).change(SLIPS, "last: 2026-09-14", "last: 2019-09-14")
    assert [one.rule.code for one in examine(base.folder, None, no_cache()).found] == []


def test_a_broken_file_is_one_finding_and_no_lost_address(tmp_path: Path) -> None:
    base = KnowledgeBase.copy_to(tmp_path)
    base.publish()
    base.change(SLIPS, "title: Belt slips", "title: 'Belt slips")
    assert base.codes() == {"KB102"}
