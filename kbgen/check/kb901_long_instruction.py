"""KB901: an instruction, or a sentence of a note or an outcome, is too long to keep in mind."""

from __future__ import annotations

from collections.abc import Iterator

from kbgen.diagnostics import Diagnostic, Example, Rule, Severity
from kbgen.language.words import may_exceed, sentences, word_count
from kbgen.prose import plain

from .speech import Said, Speech

RULE = Rule(
    code="KB901",
    name="long-instruction",
    severity=Severity.WARNING,
    summary="An instruction has more than 20 words, or a sentence of a note or an outcome more than 25.",
    rationale=(
        "Whoever reads at the machine looks away to do it. What does not stay in mind that long is read twice or done "
        "by half. The limits are those of ASD-STE100 Simplified Technical English (from memory). A number with its "
        "unit, a code and a placeholder count as one word."
    ),
    remedy="Leave out what goes without saying, move remarks to note or why, and give a second action its own step.",
    example=Example(
        "conveyors/drive-trips.yaml",
        good="        do: Tighten every clamp with the torque on the drive's plate.\n",
        bad=(
            "        do: Tighten every clamp of the incoming and of the outgoing cable, one after the other, with just "
            "the torque that the drive's own plate asks for.\n"
        ),
    ),
)


def check(said: Said, speech: Speech) -> Iterator[Diagnostic]:
    """Count the words of instructions, and of each sentence of notes and outcomes."""
    limit, sentence_limit = speech.language.longest_instruction, speech.language.longest_sentence
    for text in said.instructions:
        words = word_count(plain(text)) if may_exceed(text, limit) else 0
        if words > limit:
            message = f"The instruction has {words} words; at most {limit} stay in mind."
            yield Diagnostic(RULE, text.at, message, RULE.remedy)
    for text in said.remarks:
        longest = max(map(word_count, sentences(plain(text)))) if may_exceed(text, sentence_limit) else 0
        if longest > sentence_limit:
            message = f"A sentence has {longest} words; more than {sentence_limit} are read twice."
            yield Diagnostic(RULE, text.at, message, "Make two sentences of it, or leave out what nobody needs.")
