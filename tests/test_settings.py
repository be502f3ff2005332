"""What mkdocs.yml says of the language of instructions is read without MkDocs, and what is wrong in it has a place."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kbgen.cache import Cache, no_cache
from kbgen.examine import examine
from kbgen.language.wanted import Language
from kbgen.settings import Settings, read_settings
from kbgen.source.read import read_configuration
from tests.check.knowledge_base import SLIPS, KnowledgeBase

HEAD = """\
site_name: !ENV [SITE, Test]
markdown_extensions:
  - pymdownx.emoji:
      emoji_index: !!python/name:material.extensions.emoji.twemoji
      options: &options {size: !!int "1"}
extra: *options
"""


def read(folder: Path, text: str, head: str = HEAD) -> Settings | None:
    path = folder / "mkdocs.yml"
    path.write_text(head + text, encoding="utf-8")
    return read_settings(path, lambda shown: shown.name)


def language(folder: Path, text: str) -> Language:
    settings = read(folder, text)
    assert settings is not None and settings.found == ()
    return settings.language


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("plugins: [kbgen]\n", Language()),
        ("plugins: [search, kbgen: {warnings: false}]\n", Language()),
        ("plugins:\n  - kbgen:\n", Language()),
        ("plugins:\n  - kbgen:\n      language:\n", Language()),
        ("plugins: {kbgen: {language: {longest-sentence: 30}}}\n", Language(longest_sentence=30)),
        ("plugins: [kbgen: {language: {longest-instruction: 18}}]\n", Language(longest_instruction=18)),
        ("plugins: [kbgen: {language: {verbs: [degrease, Re-fit]}}]\n", Language(verbs=("degrease", "re-fit"))),
        (
            "plugins: [kbgen: {language: {off: [KB903, kb901, late-hazard]}}]\n",
            Language(off=("KB901", "KB903", "KB904")),
        ),
    ],
)
def test_what_is_asked_for(text: str, expected: Language, tmp_path: Path) -> None:
    assert language(tmp_path, text) == expected


@pytest.mark.parametrize("text", ["", "plugins:\n", "plugins: []\n", "plugins: [search]\n", "plugins: kbgen\n", "[]"])
def test_a_configuration_that_is_not_of_kbgen(text: str, tmp_path: Path) -> None:
    assert read(tmp_path, text, head="") is None


WRONG = [
    ("language: 20", "20", "KB106"),
    ("language: {longest-instruction: twenty}", "twenty", "KB107"),
    ("language: {longest-instruction: 0}", "0", "KB107"),
    ("language: {longest-instruction: !ENV [WORDS, 20]}", "!ENV [WORDS, 20]", "KB106"),
    ("language: {longest-instructions: 20}", "longest-instructions", "KB104"),
    ("language: {verbs: degrease}", "degrease", "KB106"),
    ("language: {verbs: [switch off]}", "switch off", "KB107"),
    ("language: {verbs: [4]}", "4", "KB107"),
    ("language: {off: KB903}", "KB903", "KB106"),
    ("language: {off: [KB999]}", "KB999", "KB107"),
    ("language: {off: [KB303]}", "KB303", "KB107"),
    ("language: {off: [late-hasard]}", "late-hasard", "KB107"),
    ("language: {off: [KB901], off: [KB903]}", "off: [KB903]", "KB103"),
]


@pytest.mark.parametrize(("text", "place", "code"), WRONG)
def test_what_is_wrong_is_found_at_its_place_and_the_usual_holds(
    text: str, place: str, code: str, tmp_path: Path
) -> None:
    settings = read(tmp_path, f"plugins:\n  - kbgen:\n      {text}\n")
    assert settings is not None
    (finding,) = settings.found
    line = f"      {text}"
    assert finding.rule.code == code
    assert (finding.at.path, finding.at.line) == ("mkdocs.yml", HEAD.count("\n") + 2)
    assert line[finding.at.column :].startswith(place)
    assert finding.message and finding.help
    assert settings.language == Language()


def test_a_rule_nearly_named_is_met_with_its_name(tmp_path: Path) -> None:
    settings = read(tmp_path, "plugins: [kbgen: {language: {off: [late-hasard, KB1]}}]\n")
    assert settings is not None
    assert [one.help.split()[0] for one in settings.found] == ["Did", "These"]
    assert "late-hazard" in settings.found[0].help


@pytest.mark.parametrize(("text", "code"), [("plugins: [kbgen\n", "KB102"), ("a: 1\n---\nb: 1\n", "KB101")])
def test_a_configuration_that_cannot_be_read(text: str, code: str, tmp_path: Path) -> None:
    settings = read(tmp_path, text)
    assert settings is not None
    assert [(one.rule.code, one.at.path) for one in settings.found] == [(code, "mkdocs.yml")]
    assert settings.language == Language()


def test_what_is_inherited_is_laid_below(tmp_path: Path) -> None:
    (tmp_path / "base.yml").write_text(
        "plugins: {kbgen: {language: {longest-instruction: 18, verbs: [zip]}}}\n", encoding="utf-8"
    )
    own = "INHERIT: base.yml\nplugins: {kbgen: {language: {longest-instruction: 16}}}\n"
    assert language(tmp_path, own) == Language(longest_instruction=16, verbs=("zip",))
    assert language(tmp_path, "INHERIT: base.yml\nplugins: [kbgen]\n") == Language()
    assert language(tmp_path, "INHERIT: base.yml\n") == Language(longest_instruction=18, verbs=("zip",))


def test_a_fault_in_what_is_inherited_lies_there(tmp_path: Path) -> None:
    (tmp_path / "base.yml").write_text("plugins: {kbgen: {language: {off: [KB1]}}}\n", encoding="utf-8")
    settings = read(tmp_path, "INHERIT: base.yml\n")
    assert settings is not None
    assert [(one.at.path, one.at.line) for one in settings.found] == [("base.yml", 0)]


def test_a_configuration_that_inherits_from_itself_ends(tmp_path: Path) -> None:
    assert language(tmp_path, "INHERIT: mkdocs.yml\nplugins: [kbgen]\n") == Language()


@given(st.text(alphabet="ab:{}[]!&*?-#|>'\" \n\t%@kbgenplugins", max_size=60))
def test_any_configuration_is_read_or_refused(text: str) -> None:
    outcome = read_configuration("mkdocs.yml", text.encode())
    assert outcome.value is not None or outcome.found


def test_the_cache_keeps_findings_of_different_settings_apart(tmp_path: Path) -> None:
    base = KnowledgeBase.copy_to(tmp_path).change(SLIPS, "do: Wipe drum and belt dry.", "do: Zip drum and belt dry.")
    cache: Cache = no_cache()
    for wanted, is_found in [
        (Language(), True),
        (Language(verbs=("zip",)), False),
        (Language(off=("KB902",)), False),
        (Language(longest_instruction=30), True),
        (Language(), True),
    ]:
        found = examine(base.folder, None, cache, language=wanted).found
        assert ("KB902" in {one.rule.code for one in found}) is is_found
