"""What a check reports: rules, places and remedies as plain data; nothing here is formatted."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import Enum
from typing import Generic, TypeVar

from kbgen.place import Span

T = TypeVar("T")


class Severity(Enum):
    """How much a finding weighs: an error stops the build, a warning and an advice do not."""

    ERROR = "error"
    WARNING = "warning"
    ADVICE = "advice"


@dataclass(frozen=True)
class Example:
    """One change to the example knowledge base that a rule catches.

    ``good`` stands in ``file`` of the example knowledge base, which raises nothing; putting ``bad`` in its place
    raises the rule that the example belongs to.
    """

    file: str
    good: str
    bad: str


@dataclass(frozen=True)
class Rule:
    """A rule with everything its page of documentation needs."""

    code: str
    name: str
    severity: Severity
    summary: str
    rationale: str
    remedy: str
    example: Example


@dataclass(frozen=True)
class Label:
    """A second place that explains the first, for example where a name was given before."""

    at: Span
    text: str


@dataclass(frozen=True)
class Diagnostic:
    """One finding: which rule, where, what is wrong and how to mend it."""

    rule: Rule
    at: Span
    message: str
    help: str
    labels: tuple[Label, ...] = ()

    @property
    def sort_key(self) -> tuple[Span, str, str]:
        """Order by place, then by rule, so that reports never depend on the order of the checks."""
        return (self.at, self.rule.code, self.message)


@dataclass(frozen=True)
class Outcome(Generic[T]):
    """The result of a stage: a value, unless the input was too broken for one, and all that was found."""

    value: T | None
    found: tuple[Diagnostic, ...] = ()


def in_order(found: Iterable[Diagnostic]) -> tuple[Diagnostic, ...]:
    """Sort findings by place and drop those that say the same thing twice."""
    return tuple(sorted(dict.fromkeys(found), key=lambda one: one.sort_key))


def has_errors(found: Iterable[Diagnostic]) -> bool:
    """Tell whether any finding must stop a build."""
    return any(one.rule.severity is Severity.ERROR for one in found)
