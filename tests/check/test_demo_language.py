"""The demo is written as the rules of language ask, without any of them switched off."""

from __future__ import annotations

from pathlib import Path

from kbgen.check.language_checks import LANGUAGE_CHECKS, check_language
from kbgen.check.speech import Speech, said_in, said_in_tables
from kbgen.language.wanted import Language
from kbgen.library.folder import Folder, read_procedure, read_tables

DEMO = Folder(Path(__file__).parents[2] / "procedures", "procedures")


def test_no_step_of_the_demo_is_hard_to_follow() -> None:
    shared, _ = read_tables(DEMO, DEMO.table_files())
    speech = Speech(shared, Language())
    found = list(check_language(said_in_tables(speech), speech))
    for file in DEMO.procedure_files():
        decoded, _ = read_procedure(DEMO, file)
        assert decoded is not None
        found += check_language(said_in(decoded.record.steps, decoded.prose), speech)
    assert [f"{one.at.path}:{one.at.line + 1} {one.rule.code} {one.message}" for one in found] == []


def test_the_demo_puts_every_rule_to_work() -> None:
    shared, _ = read_tables(DEMO, DEMO.table_files())
    speech = Speech(shared, Language())
    assert speech.terms.terms_for and speech.codes.codes and len(LANGUAGE_CHECKS) == 7
