import pytest

from kbgen.source.edit import Edit
from kbgen.source.tree import Node
from kbgen.upgrade.migration import Migration, rename_key, set_version
from kbgen.upgrade.upgrade import MIGRATIONS, NotUpgradedError, upgrade

OLD = """\
# kbgen: 0 in a comment; status: and fault: and tools-needed: too
kbgen: 0   # the version
"id": 'belt-slips'  # status: none
fault  :  "Belt slips: fault"   # the fault
# between
status: draft# no comment
state-of-mind: status
before:   # before
  # tools-needed: [a]
  people: [{fault: kept, status: kept}]
  'tools-needed':   # what to bring
    - {tool: steel-rule}  # tools-needed

symptoms:
  - text: |
      status: in a text
      fault: in a text
"""

NEW = (
    OLD.replace("kbgen: 0   #", "kbgen: 1   #")
    .replace("\nfault  :", "\ntitle  :")
    .replace("\nstatus: draft", "\nstate: draft")
    .replace("  'tools-needed':", '  "tools":')
)


def test_only_the_renamed_keys_and_the_version_change() -> None:
    done = upgrade(OLD)
    assert done.before == 0
    assert done.text == NEW


@pytest.mark.parametrize("end", ["\r\n", "\n", "\r"])
def test_ends_of_lines_stay_as_they_are(end: str) -> None:
    assert upgrade(OLD.replace("\n", end)).text == NEW.replace("\n", end)


def test_a_file_without_an_end_of_line_gets_none() -> None:
    assert upgrade("fault: a\nkbgen: '0'").text == "title: a\nkbgen: 1"


def test_a_file_on_one_line_keeps_its_quotes() -> None:
    text = '{"kbgen":0,"status":draft,"before":{"tools-needed":none}} # all'
    assert upgrade(text).text == '{"kbgen":1,"state":draft,"before":{"tools":none}} # all'


def test_wide_characters_before_a_key_do_not_shift_it() -> None:
    assert upgrade("{größe: “ü”, 𝛼: é, status: draft, kbgen: 0}").text == "{größe: “ü”, 𝛼: é, state: draft, kbgen: 1}"


def test_a_key_that_is_there_under_its_new_name_is_not_made_twice() -> None:
    assert upgrade("kbgen: 0\nstatus: draft\nstate: draft\n").text == "kbgen: 1\nstatus: draft\nstate: draft\n"


def test_a_file_in_the_present_format_is_left_alone() -> None:
    text = "kbgen: 1\nstatus: draft\n"
    assert upgrade(text).text == text


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("kbgen: 99\n", "format 99, which is newer"),
        ("title: a\n", "does not say in which version"),
        ("kbgen: first\n", "does not say in which version"),
        ("kbgen: ²\n", "does not say in which version"),
        ("kbgen: [0]\n", "does not say in which version"),
        ("- kbgen\n", "does not say in which version"),
        ("", "does not say in which version"),
        ("kbgen: 0\nstatus: 'a\n", "Mend that first"),
        ("kbgen: 0\nstatus: a\nstatus: b\n", "stands twice"),
    ],
)
def test_what_cannot_be_upgraded_says_why(text: str, why: str) -> None:
    with pytest.raises(NotUpgradedError, match=why):
        upgrade(text)


def test_migrations_are_carried_out_one_after_the_other() -> None:
    def later(root: Node) -> list[Edit]:
        return [*set_version(root, 2), *rename_key(root, "title", "heading")]

    done = upgrade("kbgen: 0 # a\nfault: b # c\n", (Migration(1, 2, later), *MIGRATIONS), 2)
    assert done.text == "kbgen: 2 # a\nheading: b # c\n"
    with pytest.raises(NotUpgradedError, match="no way to format 2"):
        upgrade("kbgen: 0\n", (Migration(1, 2, later),), 2)


def test_a_migration_that_forgets_the_version_does_not_run_for_ever() -> None:
    with pytest.raises(NotUpgradedError, match="could not be changed"):
        upgrade("kbgen: 0\n", (Migration(0, 1, lambda root: []),), 1)


def test_every_step_up_to_the_present_format_is_there() -> None:
    assert [(one.before, one.after) for one in MIGRATIONS] == [(0, 1)]
