from collections.abc import Callable

import pytest

from kbgen.check.catalogue import RULES
from kbgen.diagnostics import Rule
from tests.commands.conftest import Ran

Run = Callable[..., Ran]


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.code)
def test_every_rule_is_explained_by_its_code_and_by_its_name(rule: Rule, run: Run) -> None:
    done = run("explain", rule.code)
    assert (done.code, done.err) == (0, "")
    words = " ".join(done.out.split())
    for part in (rule.code, rule.name, rule.summary, rule.rationale, rule.remedy):
        assert " ".join(part.split()) in words
    assert run("explain", rule.name) == done
    assert run("explain", rule.code.lower()) == done


def test_without_a_code_all_rules_are_listed(run: Run) -> None:
    lines = run("explain").out.splitlines()
    assert [line.split()[0] for line in lines] == [rule.code for rule in RULES]
    assert [line.split()[1] for line in lines] == [rule.severity.value for rule in RULES]


def test_an_unknown_code_is_met_with_the_nearest_one(run: Run) -> None:
    assert run("explain", "unknown-kei") == Ran(
        2, "", "kbgen: there is no rule “unknown-kei”. Did you mean unknown-key?\n"
    )
    far = run("explain", "zzzzzz")
    assert (far.code, "kbgen explain lists them all" in far.err) == (2, True)
