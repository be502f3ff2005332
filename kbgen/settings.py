"""What mkdocs.yml says of a knowledge base beside its place: the language that is asked of its instructions."""

from __future__ import annotations

import difflib
import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from pathlib import Path

from kbgen.check.language_checks import LANGUAGE_CHECKS
from kbgen.diagnostics import Diagnostic, in_order
from kbgen.language.wanted import Language
from kbgen.model.decode import decode
from kbgen.model.record import Record, key
from kbgen.model.rules import UNFIT_VALUE
from kbgen.model.values import Text
from kbgen.place import Span
from kbgen.source.configuration import inherited, merged, option
from kbgen.source.read import read_configuration
from kbgen.source.tree import Mapping, Node, Scalar

LANGUAGE = "language"
_PLUGIN = "kbgen"
_MOST_INHERITED = 10
_VERB = re.compile(r"[a-z]+(-[a-z]+)*")
_CODES = {name: module.RULE.code for module in LANGUAGE_CHECKS for name in (module.RULE.code.lower(), module.RULE.name)}

Shown = Callable[[Path], str]


@dataclass(frozen=True)
class Settings:
    """The settings of a knowledge base, and what is wrong with them; where anything is, the usual ones hold."""

    language: Language = field(default_factory=Language)
    found: tuple[Diagnostic, ...] = ()


@dataclass(frozen=True, kw_only=True)
class _LanguageKeys(Record):
    """The keys under language."""

    longest_instruction: int = key("Most words of an instruction.", default=20, above_zero=True)
    longest_sentence: int = key("Most words of a sentence in a note or an outcome.", default=25, above_zero=True)
    verbs: tuple[Text, ...] = key("More verbs that instructions may begin with, in their base form.", default=())
    off: tuple[Text, ...] = key("Codes or names of rules of language that are switched off.", default=())


def read_settings(path: Path, shown: Shown) -> Settings | None:
    """Read the settings in a configuration of MkDocs; None where kbgen is not among its plugins.

    ``shown`` gives the name of a file in findings. Raises OSError for a file that cannot be opened.
    """
    root, found = _read(path, shown, _MOST_INHERITED)
    if root is None:
        return Settings(found=found)
    options = option(root, _PLUGIN)
    if options is None:
        return None
    node = options.get(LANGUAGE) if isinstance(options, Mapping) else None
    if node is None or (isinstance(node, Scalar) and node.is_blank):
        return Settings()
    return _settings(node, found)


def _read(path: Path, shown: Shown, depth: int) -> tuple[Node | None, tuple[Diagnostic, ...]]:
    """Read a configuration and those that it inherits from, as MkDocs lays them over one another."""
    outcome = read_configuration(shown(path), path.read_bytes())
    parent = inherited(outcome.value) if outcome.value is not None else None
    if outcome.value is None or parent is None or depth == 0:
        return outcome.value, outcome.found
    base, found = _read(path.parent / parent, shown, depth - 1)
    if base is None:
        return None, found
    return merged(base, outcome.value), (*found, *outcome.found)


def _settings(node: Node, found_in_files: tuple[Diagnostic, ...]) -> Settings:
    decoded = decode(_LanguageKeys, node)
    keys = decoded.record
    found = [*decoded.found, *(one for one in found_in_files if _is_within(one.at, node.at))]
    found += [*_unfit_verbs(keys), *_unknown_rules(keys)]
    if found:
        return Settings(found=in_order(found))
    return Settings(
        Language(
            keys.longest_instruction,
            keys.longest_sentence,
            tuple(sorted({str(verb).lower() for verb in keys.verbs})),
            tuple(sorted({_CODES[str(name).lower()] for name in keys.off})),
        )
    )


def _is_within(at: Span, whole: Span) -> bool:
    start, end = (whole.line, whole.column), (whole.end_line, whole.end_column)
    return at.path == whole.path and start <= (at.line, at.column) < end


def _unfit_verbs(keys: _LanguageKeys) -> Iterator[Diagnostic]:
    for verb in keys.verbs:
        if verb and not _VERB.fullmatch(verb.lower()):
            message = f"“{verb}” is not one verb in its base form."
            yield Diagnostic(UNFIT_VALUE, verb.at, message, "Write one word per verb, for example degrease.")


def _unknown_rules(keys: _LanguageKeys) -> Iterator[Diagnostic]:
    for name in keys.off:
        if name and name.lower() not in _CODES:
            near = difflib.get_close_matches(name.lower(), [module.RULE.name for module in LANGUAGE_CHECKS], n=1)
            known = ", ".join(f"{module.RULE.code} {module.RULE.name}" for module in LANGUAGE_CHECKS)
            help = f"Did you mean “{near[0]}”?" if near else f"These can be switched off: {known}."
            yield Diagnostic(UNFIT_VALUE, name.at, f"There is no rule of language “{name}”.", help)
