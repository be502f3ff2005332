"""The demo's lockout sequences follow the published orders that the demo names.

OSHA 29 CFR 1910.147(d): shutdown (2), isolation (3), devices affixed (4), stored energy (5), verification (6).
EN 50110-1: disconnect completely, secure, verify dead. Both as quoted in secondary sources.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from kbgen.library.folder import Folder, read_tables
from kbgen.model.steps import Isolate, Lock, Prove, Release, ShutDown

DEMO = Folder(Path(__file__).parents[2] / "procedures", "procedures")
SHARED, _ = read_tables(DEMO, DEMO.table_files())
ISOLATING = [
    sequence
    for sequence in SHARED.sequences.values()
    if {Lock, Prove} <= {type(step) for group in sequence.steps for step in group.steps}
]
OSHA = (ShutDown, Isolate, Lock, Release, Prove)
EN_50110 = (Isolate, Lock, Prove)


def _kinds(sequence) -> list[type]:
    return [type(step) for group in sequence.steps for step in group.steps]


def test_the_demo_has_isolating_sequences() -> None:
    assert len(ISOLATING) >= 3


@pytest.mark.parametrize("order", [OSHA, EN_50110], ids=["OSHA 1910.147(d)", "EN 50110-1"])
@pytest.mark.parametrize("sequence", ISOLATING, ids=lambda sequence: str(sequence.id))
def test_the_first_step_of_each_kind_follows_the_order(sequence, order) -> None:
    kinds = _kinds(sequence)
    firsts = [kinds.index(kind) for kind in order if kind in kinds]
    assert firsts == sorted(firsts)
    assert Isolate in kinds
