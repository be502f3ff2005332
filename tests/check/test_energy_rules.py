"""The rules of energy on more cases than the example on their page."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.check.knowledge_base import SLIPS, TABLES, KnowledgeBase

TRIPS, DRIVES, SITE = "conveyors/drive-trips.yaml", "tables/drives.yaml", "tables/site.yaml"

LOCK = """          - id: padlock
            lock: Hang your own padlock and tag on {supply.points}.
            source: supply
            takes: 1 min
"""
RELEASE = """          - id: relieve
            release: Press start once, then stop. Wait until nothing moves.
            source: supply
            takes: 1 min
"""
OPEN = """          - id: open
            isolate: Open {supply.points}.
            source: supply
            takes: 1 min
"""
UNLOCK = """          - id: unlock
            unlock: Take off your own padlock and tag at {supply.points}.
            source: supply
            takes: 1 min
"""
CLOSE = """          - id: close
            energise: Close {supply.points}.
            source: supply
            confirm: [people-clear, tools-out, covers-on, devices-removed-by-owner]
            takes: 1 min
"""
PROVED = "proved: guard-off, not-proved: call}"
AT_THE_DRUM = "    person: hands-in\n    energy: {conveyor-mains: verified}\n"
WAIT = """      - id: discharge
        wait: 5 min
        for: The charge of the DC link to drain away.
        discharges: drive-dc-link
"""
LIVE_WORK = """        live-work:
          reason: The voltages of the phases differ only while the drive runs.
          qualification: electrically-skilled
"""
FED_BY = "    fed-by: [conveyor-mains]\n"
OSHA = "  isolation-order: osha-1910-147\n"


def _errors(base: KnowledgeBase) -> set[str]:
    return {code for code in base.codes() if code.startswith("KB5")}


BAD = [
    ("KB501", TABLES, LOCK, LOCK.replace("lock:", "do:").replace("            source: supply\n", "")),
    ("KB501", SLIPS, PROVED, "proved: guard-off, not-proved: guard-off}"),
    ("KB501", TRIPS, "        outcomes: {running: load-parameters}", "        outcomes: {running: clamps}"),
    ("KB501", TRIPS, "proved: drain, not-proved: still-energy}", "proved: load-parameters, not-proved: still-energy}"),
    ("KB502", SLIPS, AT_THE_DRUM, AT_THE_DRUM.replace("verified", "released")),
    ("KB502", SLIPS, AT_THE_DRUM, AT_THE_DRUM.replace("verified", "any")),
    ("KB502", TRIPS, LIVE_WORK, ""),
    ("KB502", TRIPS, "energy: {conveyor-mains: live, drive-dc-link: live}\n        unit", "unit"),
    ("KB503", TABLES, LOCK + RELEASE, RELEASE + LOCK),
    ("KB503", TABLES, OPEN + LOCK, LOCK + OPEN),
    ("KB503", TABLES, RELEASE, ""),
    ("KB503", TRIPS, "go: isolate}\n          - {id: different", "go: drain}\n          - {id: different"),
    ("KB504", TABLES, "confirm: [people-clear, tools-out, covers-on, dev", "confirm: [tools-out, covers-on, dev"),
    ("KB504", TABLES, UNLOCK, ""),
    ("KB504", TABLES, UNLOCK + CLOSE, CLOSE + UNLOCK),
    ("KB504", SLIPS, "        takes: 5 min\n        go: guard-on\n", "        takes: 5 min\n        go: restore\n"),
    ("KB505", TABLES, "by: voltage-test", "by: try-to-start"),
    ("KB505", TABLES, "by: voltage-test", "by: look"),
    ("KB505", TABLES, "            below: 50 V\n", ""),
    ("KB505", TABLES, "kind: electrical", "kind: pneumatic"),
    ("KB505", TABLES, "below: 50 V", "below: 120 V"),
    ("KB505", TABLES, "below: 50 V", "below: 0.5 kV"),
    ("KB505", TABLES, "tester-proved: before-and-after", "tester-proved: before"),
    ("KB506", TRIPS, WAIT, ""),
    ("KB506", TRIPS, "wait: 5 min", "wait: 228 s"),
    ("KB506", DRIVES, "resistance: 220 kΩ", "resistance: 0.44 MΩ"),
    ("KB506", DRIVES, "      safe-voltage: 50 V\n", "      safe-voltage: 50 V\n      margin: 2\n"),
    ("KB507", DRIVES, "      safe-voltage: 50 V\n", ""),
    ("KB508", TRIPS, "qualification: electrically-skilled, trade", "qualification: machine-fitter, trade"),
    ("KB509", SLIPS, "        closes: guard-off\n", "        closes: guard-off\n        go: fixed\n"),
    ("KB509", SLIPS, PROVED, "proved: not-this, not-proved: guard-off}"),
]


@pytest.mark.parametrize(("code", "file", "good", "bad"), BAD, ids=lambda value: str(value)[:24])
def test_bad(code: str, file: str, good: str, bad: str, tmp_path: Path) -> None:
    base = KnowledgeBase.copy_to(tmp_path)
    assert code in base.change(file, good, bad).codes()


GOOD = [
    ("KB501", SLIPS, PROVED, "proved: guard-off, not-proved: restore}"),
    ("KB503", DRIVES, FED_BY, ""),
    ("KB505", TABLES, "below: 50 V", "below: 60 V"),
    ("KB505", TABLES, "below: 50 V", "below: 60000 mV"),
    ("KB506", TRIPS, "wait: 5 min", "wait: 229 s"),
    ("KB506", TRIPS, WAIT, WAIT.replace("5 min", "2 min") + WAIT.replace("discharge\n", "discharge-on\n")),
    ("KB506", DRIVES, "      safe-voltage: 50 V\n", "      safe-voltage: 50 V\n      margin: 1\n"),
]


@pytest.mark.parametrize(("code", "file", "good", "bad"), GOOD, ids=lambda value: str(value)[:24])
def test_good(code: str, file: str, good: str, bad: str, tmp_path: Path) -> None:
    assert code not in KnowledgeBase.copy_to(tmp_path).change(file, good, bad).codes()


# OSHA 29 CFR 1910.147(d) locks (4) before it releases (5); NFPA 70E 120.5 releases (4, 5) before it locks (6);
# EN 50110-1 asks only that both come between disconnecting and verifying. Without shutting down first only EN passes.
ORDERS = [
    ("osha-1910-147", "as it is", True),
    ("osha-1910-147", "released first", False),
    ("nfpa-70e-120-5", "as it is", False),
    ("nfpa-70e-120-5", "released first", True),
    ("en-50110-1", "as it is", True),
    ("en-50110-1", "released first", True),
    ("own\n  own-order: [isolate, lock, release, prove]", "as it is", True),
    ("own\n  own-order: [isolate, release, lock, prove]", "as it is", False),
    ("own\n  own-order: [isolate, lock, prove]", "released first", True),
]


@pytest.mark.parametrize(("profile", "order", "passes"), ORDERS)
def test_each_site_is_held_to_the_order_that_it_follows(profile: str, order: str, passes: bool, tmp_path: Path) -> None:
    base = KnowledgeBase.copy_to(tmp_path).change(SITE, "osha-1910-147", profile)
    if order == "released first":
        base.change(TABLES, LOCK + RELEASE, RELEASE + LOCK)
    assert ("KB503" not in base.codes()) is passes


@pytest.mark.parametrize(
    ("profile", "passes"), [("osha-1910-147", False), ("nfpa-70e-120-5", False), ("en-50110-1", True)]
)
def test_only_some_orders_ask_for_a_shut_down_first(profile: str, passes: bool, tmp_path: Path) -> None:
    stop = "shut-down: Stop the machine with its ordinary stop button.\n            source: supply\n"
    base = KnowledgeBase.copy_to(tmp_path).change(SITE, "osha-1910-147", profile)
    base.change(TABLES, stop, "do: Stop the machine with its ordinary stop button.\n")
    if profile.startswith("nfpa"):
        base.change(TABLES, LOCK + RELEASE, RELEASE + LOCK)
    assert ("KB503" not in base.codes()) is passes


def _message(base: KnowledgeBase, code: str) -> str:
    (finding,) = base.found(code)
    return finding.message


def test_a_finding_tells_the_path_and_where_energy_came_back(tmp_path: Path) -> None:
    base = KnowledgeBase.copy_to(tmp_path)
    base.change(SLIPS, "outcomes: {running: fixed}", "outcomes: {running: lagging}")
    found = [one.message for one in base.found("KB501")]
    assert found == [
        "Step 8, “lagging”, needs “conveyor-mains” proved safe by a test, but it can be live there: "
        "start -> 1 watch “Yes, the drum turns” -> ... -> 2.2 stop -> 2.3 open -> 2.4 padlock -> 2.5 relieve -> "
        "2.6 test “Proved” -> ... -> 4 wet “Yes” -> ... -> 12.2 unlock -> 12.3 close -> 8 lagging, "
        "while “conveyor-mains” was last brought back at 12.3 “close”. Hands are in the machine there."
    ]


def test_one_way_past_the_isolation_is_one_finding(tmp_path: Path) -> None:
    base = KnowledgeBase.copy_to(tmp_path).change(SLIPS, "cannot-tell: {go: call}", "cannot-tell: {go: guard-off}")
    assert _message(base, "KB501").endswith(
        "start -> 1 watch “Cannot tell” -> 3 guard-off, where nothing brings “conveyor-mains” under control. "
        "Hands are in the machine there."
    )


def test_a_wait_that_is_too_short_gives_the_figure(tmp_path: Path) -> None:
    base = KnowledgeBase.copy_to(tmp_path).change(TRIPS, "wait: 5 min", "wait: 2 min")
    assert _message(base, "KB506").startswith(
        "“drive-dc-link” needs 229 s to fall from 622 V to 50 V (R C ln(V0/Vsafe) with 220 kΩ and 330 µF, times 1.25), "
        "but step 12, “test-dc-link”, tests it after 120 s: start -> "
    )


def test_a_wait_before_the_source_is_cut_off_does_not_count(tmp_path: Path) -> None:
    base = KnowledgeBase.copy_to(tmp_path).change(TRIPS, WAIT, "")
    base.change(TRIPS, "      - id: isolate\n        run", WAIT + "      - id: isolate\n        run")
    base.change(TRIPS, "go: isolate}\n          - {id: different", "go: discharge}\n          - {id: different")
    assert "tests it after 0 s" in _message(base, "KB506")


def test_a_source_out_of_reach_needs_no_proof(tmp_path: Path) -> None:
    base = KnowledgeBase.copy_to(tmp_path)
    verified = "    energy: {conveyor-mains: verified, drive-dc-link: verified}\n"
    reach = "    energy: {conveyor-mains: verified, drive-dc-link: any}\n"
    base.change(TRIPS, verified, reach + "    out-of-reach: {drive-dc-link: The drive sits behind a closed cover.}\n")
    assert _errors(base) == set()


def test_live_work_does_not_excuse_what_may_be_in_any_state(tmp_path: Path) -> None:
    base = KnowledgeBase.copy_to(tmp_path)
    live = "energy: {conveyor-mains: live, drive-dc-link: live}\n        unit"
    base.change(TRIPS, live, live.replace("drive-dc-link: live", "drive-dc-link: any"))
    assert "“drive-dc-link” may be in any state" in _message(base, "KB502")


def test_what_is_emptied_and_cannot_be_filled_needs_no_lock_of_its_own(tmp_path: Path) -> None:
    base = KnowledgeBase.copy_to(tmp_path)
    base.change(DRIVES, "    points: none\n", "    points: [q1]\n")
    assert "KB503" in base.codes()
    drain = "        source: drive-dc-link\n        energy: {conveyor-mains: verified}\n"
    base.change(TRIPS, drain, "        empties: yes\n" + drain)
    assert "KB503" not in base.codes()


def test_a_step_of_a_sequence_names_the_run(tmp_path: Path) -> None:
    base = KnowledgeBase.copy_to(tmp_path).change(TABLES, OPEN + LOCK, LOCK + OPEN)
    finding = base.found("KB503")[0]
    assert finding.at.path == TABLES and finding.labels[0].at.path in (SLIPS, TRIPS)
