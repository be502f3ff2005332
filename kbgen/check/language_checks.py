"""The rules of language, which a knowledge base may switch off one by one."""

from __future__ import annotations

from collections.abc import Iterator

from kbgen.diagnostics import Diagnostic

from . import (
    kb901_long_instruction,
    kb902_not_imperative,
    kb903_several_actions,
    kb904_late_hazard,
    kb905_weak_word,
    kb906_other_word,
    kb907_unknown_code,
)
from .speech import Said, Speech

LANGUAGE_CHECKS = (
    kb901_long_instruction,
    kb902_not_imperative,
    kb903_several_actions,
    kb904_late_hazard,
    kb905_weak_word,
    kb906_other_word,
    kb907_unknown_code,
)


def check_language(said: Said, speech: Speech) -> Iterator[Diagnostic]:
    """Carry out the rules that are not switched off."""
    for module in LANGUAGE_CHECKS:
        if module.RULE.code not in speech.language.off:
            yield from module.check(said, speech)
