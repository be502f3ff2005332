"""What a knowledge base asks of the language of its instructions."""

from __future__ import annotations

import hashlib
from dataclasses import dataclass
from functools import cached_property

from kbgen.language.verbs import VERBS


@dataclass(frozen=True)
class Language:
    """How long sentences may be, which verbs are known beside the usual ones, and which rules are switched off.

    The limits in words are those of ASD-STE100 for instructions and for descriptions (from memory). ``off`` holds codes
    of rules.
    """

    longest_instruction: int = 20
    longest_sentence: int = 25
    verbs: tuple[str, ...] = ()
    off: tuple[str, ...] = ()

    @cached_property
    def known_verbs(self) -> frozenset[str]:
        """Every verb that an instruction may begin with."""
        return VERBS.union(self.verbs)

    @cached_property
    def key(self) -> str:
        """What findings about language depend on, as a text that is the same in every run."""
        verbs = hashlib.sha256(" ".join(sorted(self.known_verbs)).encode()).hexdigest()
        return f"{self.longest_instruction}:{self.longest_sentence}:{verbs}:{','.join(sorted(self.off))}"
