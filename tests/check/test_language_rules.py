"""The rules of language, sentence by sentence: what they must find, and what must not bother a good author."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from pathlib import Path
from types import ModuleType

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kbgen.check import (
    kb901_long_instruction,
    kb902_not_imperative,
    kb903_several_actions,
    kb904_late_hazard,
    kb905_weak_word,
    kb906_other_word,
    kb907_unknown_code,
)
from kbgen.check.language_checks import LANGUAGE_CHECKS, check_language
from kbgen.check.speech import Said, Speech
from kbgen.diagnostics import Diagnostic
from kbgen.language.wanted import Language
from kbgen.model.decode import decode
from kbgen.model.shared import Shared
from kbgen.model.tables import Tables
from kbgen.model.values import Prose
from kbgen.place import Span
from kbgen.source.read import read_text
from tests.check.knowledge_base import SLIPS, KnowledgeBase
from tests.check.knowledge_base import TABLES as TABLES_FILE

TABLES = """
kbgen: 1
units:
  - {id: belt-1, tag: BC-1, family: belt, where: "Hall 2, behind RM 90"}
displays:
  - id: panel
    name: Panel
    where: Hall
    alarms:
      - {code: RM 31, text: Room too warm}
      - {code: TR-52, text: Low voltage}
      - {code: N-12, text: Belt slow}
      - {code: 17-P, text: Air low}
      - {code: EL2, text: Earth fault}
      - {code: D5, text: Lip not out}
isolation-points:
  - {id: q, name: TR-7, device: Switch, where: Hall, lock-with: Padlock}
parts:
  - {id: hose, name: Hose, number: HC-4136, fits: [belt], printed: On it, unreadable: Length}
  - {id: valve, name: Valve, number: KW-T004, fits: [belt], printed: On it, unreadable: Length}
glossary:
  - {term: drive drum, meaning: The driven roller., also: [head roller, drive roller]}
  - {term: drip tray, meaning: A tray., also: [drain pan]}
  - {term: crate, meaning: A box., also: [tray, box]}
  - {term: cup, meaning: A carrier., also: [tray]}
  - {term: box end, meaning: Where boxes end., also: [crate]}
"""


def _shared() -> Shared:
    root = read_text("tables.yaml", TABLES).value
    assert root is not None
    return Shared((decode(Tables, root),))


SHARED = _shared()


def prose(text: str) -> Prose:
    return Prose.of(text, Span("file.yaml", 3, 8, 3, 8 + len(text)))


def said(*instructions: str, remarks: Iterable[str] = (), others: Iterable[str] = ()) -> Said:
    texts = [tuple(map(prose, some)) for some in (instructions, remarks, others)]
    return Said(texts[0], texts[1], texts[2], tuple(text for some in texts for text in some))


def found(rule: ModuleType, words: Said, language: Language | None = None) -> Sequence[Diagnostic]:
    return list(rule.check(words, Speech(SHARED, language or Language())))


def shown(finding: Diagnostic, text: str) -> str:
    """What the place of a finding covers."""
    assert finding.at.line == finding.at.end_line == 3
    return text[finding.at.column - 8 : finding.at.end_column - 8]


# --- KB901

TWENTY = "Turn the knob of the red valve at the left side of the pump by two full turns back again."
COUNTED = [
    (TWENTY, True),
    (TWENTY.replace("back", "slowly back"), False),
    # A number with its unit, a code, a placeholder, a hyphenated word: one word each.
    (TWENTY.replace("again", "to 5.5 bar"), False),
    (TWENTY.replace("back again", "to 5.5 bar"), True),
    (TWENTY.replace("full", "RM 31"), True),
    (TWENTY.replace("full", "{supply.points}"), True),
    (TWENTY.replace("full", "pre-set"), True),
    (TWENTY.replace("two", "**two**"), True),
    (TWENTY.replace("by two", "– by two"), True),
]


@pytest.mark.parametrize(("text", "is_short_enough"), COUNTED)
def test_twenty_words_of_an_instruction_stay_in_mind(text: str, is_short_enough: bool) -> None:
    assert bool(found(kb901_long_instruction, said(text))) is not is_short_enough


def test_a_note_is_measured_sentence_by_sentence() -> None:
    note = f"{TWENTY} {TWENTY} {TWENTY}"
    assert not found(kb901_long_instruction, said(remarks=[note]))
    assert found(kb901_long_instruction, said(remarks=[note.replace("again. T", "again and t")]))
    assert not found(kb901_long_instruction, said(others=[note.replace("again. T", "again and t")]))


def test_the_limits_are_those_of_the_knowledge_base() -> None:
    assert found(kb901_long_instruction, said("Press START on the panel."), Language(longest_instruction=4))
    assert not found(kb901_long_instruction, said("Press START on the panel."), Language(longest_instruction=5))
    assert found(kb901_long_instruction, said(remarks=["It is on. It stays on."]), Language(longest_sentence=2))


# --- KB902

IMPERATIVE = """
Close the valve.
close the valve.
**Close** the valve.
[Close the valve](#valve) by hand.
“Close” the valve.
Do not close the valve.
Never close the valve.
Don’t close the valve.
Slowly open the valve.
Now press START.
Once again press START.
Slowly and evenly turn the shaft.
Gently but firmly press the cap on.
Switch-off the drive.
Double-check the reading.
In the menu, select the delay.
To reset it, press the knob.
Please press START.
De-energise the coil.
Re-tighten the screws.
If it hisses, close the valve.
If the lamp is on, or the horn sounds, press STOP.
With the deck down, put the pin in.
When the display shows 0 A, pull the plug.
Standing beside the pit, open the valve.
Using both hands, lift the cover.
Carefully, and with both hands, lift the cover.
With 500 V: measure both conductors.
{supply.prove}
{dc-link.prove} Do it twice.
Try to start the motor.
Have the driver set the lorry back.
""".strip().splitlines()

NOT_IMPERATIVE = {
    "The valve is closed.": "the",
    "Opens the valve.": "opens",
    "Opening the valve.": "opening",
    "Valve to be closed.": "valve",
    "You close the valve.": "you",
    "Two persons lift the motor.": "two",
    "All parameters of the drive are saved.": "all",
    "The technician closes the valve, opens the vent and waits.": "the",
    "If it hisses, the valve is closed.": "if",
    "The drive must be off, open the door.": "the",
    "{supply.points} is opened.": "supply",
    "Degrease the shaft.": None,
    "Zzzip the shaft.": "zzzip",
    "400 V are measured.": "v",
}


@pytest.mark.parametrize("text", IMPERATIVE)
def test_an_instruction_that_begins_with_its_verb(text: str) -> None:
    assert not found(kb902_not_imperative, said(text))


@pytest.mark.parametrize("text", [text for text, word in NOT_IMPERATIVE.items() if word])
def test_an_instruction_that_does_not_say_what_to_do(text: str) -> None:
    assert found(kb902_not_imperative, said(text))


def test_an_inflected_verb_is_met_with_its_base_form() -> None:
    for text, base in [("Opens it.", "open"), ("Closing it.", "close"), ("Stopped the pump.", "stop")]:
        (finding,) = found(kb902_not_imperative, said(text))
        assert f"“{base}”" in finding.help


def test_a_verb_of_the_knowledge_base() -> None:
    (finding,) = found(kb902_not_imperative, said("Zzzip the shaft."))
    assert "mkdocs.yml" in finding.help
    assert not found(kb902_not_imperative, said("Zzzip the shaft."), Language(verbs=("zzzip",)))


# --- KB903

ONE_ACTION = """
Lock and tag {supply.points}.
Wait and see whether it moves.
Put the guard on and tighten its four screws.
Close the lid and see that its switch engages.
Press start once, then stop.
Press start once, then stop. Wait until nothing moves.
Measure the resistance of each pole. Enter the highest.
Open the valve slowly, and hold it there.
Open the vent and leave it open.
Close the valve. Do not force it.
Close the valve. The hiss stops.
Close the valve. Oil runs back.
Close the valve. Oil that drips is wiped up.
Close the valve. Pump P1 stops.
Close the valve. Switch S3 clicks.
Close the valve. Drain V13 stays open.
Measure each phase. Take the mean.
Loosen, turn and tighten the sensor.
Check that Q1 is open and that its lock is on.
Read the gauge, then the thermometer.
Set P12 to 5 s, P13 to 3 s.
Wipe seal, drain and vent.
Test each phase against each other, then each against earth.
If the lamp is on, then close the valve.
With the deck down, close the valve.
With pump and drain shut, open the lid.
Only then open the door.
Mark shaft, coupling, one cup and the frame with paint.
Turn it past 5 bar first and then up.
Have the deck lowered with FLOAT, and keep the barriers up.
Ask the shift lead to stop every motor and to lock the door.
Set the flow to 4.5 l/min. Read it after 5 min.
Pull the lead out by its plug.
Press STOP at L1, L2 and L3.
* Close the valve.
""".strip().splitlines()

SEVERAL_ACTIONS = {
    "Close the valve, then open the vent.": "then open",
    "Close the valve and then open the vent.": "then open",
    "Close the valve and, if it hisses, then open the vent.": "then open",
    "Close the valve; open the vent.": "open",
    "Close the valve. Open the vent.": "Open",
    "Close the valve! Take off the lid.": "Take",
    "Close the valve. Open V12.": "Open",
    "Close the valve. Pump the oil out.": "Pump",
    "Close the valve. Take the lid off.": "Take",
    "Close the valve, open the vent.": "open",
    "Open the box, flag the wires with tape and take them off.": "flag",
    "Stop the belt and open the door and take the guard off.": "and take",
    "If it hisses, close the valve, then open the vent.": "then open",
    "With the deck down, close the valve. Open the vent.": "Open",
}


@pytest.mark.parametrize("text", ONE_ACTION)
def test_one_handling_is_one_action(text: str) -> None:
    assert not found(kb903_several_actions, said(text))


@pytest.mark.parametrize(("text", "second"), SEVERAL_ACTIONS.items())
def test_a_second_action_is_found_where_it_begins(text: str, second: str) -> None:
    (finding,) = found(kb903_several_actions, said(text))
    assert shown(finding, text).strip(" ,;.!") == second
    assert f"“{second}”" in finding.message


def test_a_list_is_several_actions() -> None:
    assert found(kb903_several_actions, said("Do this:\n* Close the valve.\n* Open the vent."))
    assert found(kb903_several_actions, said("1. Close the valve.\n2. Open the vent."))


# --- KB904

WARNED_LATE = {
    "Warning: the shaft may turn.": "Warning",
    "Lift the cover. CAUTION: sharp edges.": "CAUTION",
    "Danger! Live parts.": "Danger",
    "NOTICE – the seal is fragile.": "NOTICE",
    "Caution. The pipe is hot.": "Caution",
    "Attention: the deck sinks.": "Attention",
    "Beware of the hot pipe.": "Beware",
    "Lift it, but watch out for the edge.": "watch out",
    "Be careful, the pipe is hot.": "Be careful",
    "Lift the cover. Careful: sharp edges.": "Careful",
}

NO_WARNING = """
Carefully lift the cover.
Press WARNING RESET on the panel.
Wait until the warning lamp goes out.
The warning turns into an alarm after 10 min.
Wait the time on the drive's warning plate.
Note the danger zone on the drawing.
Put up the notice of work.
Write down whether “CAUTION HOT” is lit.
Keep hands out of the gap.
Watch the display.
""".strip().splitlines()


@pytest.mark.parametrize(("text", "word"), WARNED_LATE.items())
def test_a_warning_among_the_words_of_a_step(text: str, word: str) -> None:
    for words in (said(text), said(remarks=[text]), said(others=[text])):
        (finding,) = found(kb904_late_hazard, words)
        assert f"“{word}”" in finding.message
        assert word in shown(finding, text)


@pytest.mark.parametrize("text", NO_WARNING)
def test_words_that_only_sound_like_a_warning(text: str) -> None:
    assert not found(kb904_late_hazard, said(text, remarks=[text]))


# --- KB905

WEAK = {
    "The lamp should go out.": "should",
    "Please close the valve.": "Please",
    "Try to loosen the nut.": "Try to",
    "If possible, close the valve.": "If possible",
    "Tighten the screws as required.": "as required",
    "Clean bowl, filter etc.": "etc",
    "Clean bowl, filter and so on.": "and so on",
    "Add oil if necessary.": "if necessary",
}

FIRM = """
Try to start the machine.
Try to turn the shaft by hand.
Press the shoulder of the bolt.
Tighten the bolt as required by the plate.
Fetch the etched plate.
Adjust the required speed.
Make the work as short as it can be.
""".strip().splitlines()


@pytest.mark.parametrize(("text", "word"), WEAK.items())
def test_a_word_that_leaves_open_what_must_be_done(text: str, word: str) -> None:
    (finding,) = found(kb905_weak_word, said(text))
    assert shown(finding, text) == word
    assert "leaves open" in finding.message or "attempt" in finding.message
    assert not found(kb905_weak_word, said(remarks=[text], others=[text]))


@pytest.mark.parametrize("text", FIRM)
def test_a_firm_instruction(text: str) -> None:
    assert not found(kb905_weak_word, said(text))


# --- KB906

OTHER_WORDS = {
    "Wipe the head roller dry.": ["head roller"],
    "Head rollers turn.": ["Head rollers"],
    "Empty the drain pan.": ["drain pan"],
    "Take the tray out.": ["tray"],
    "Boxes stand on a TRAY.": ["Boxes", "TRAY"],
    "Lift the box (the tray too).": ["box", "tray"],
}

RIGHT_WORDS = """
Wipe the drive drum dry.
Empty the drip tray.
Empty all drip trays.
Go to the box end.
Count the crates.
Betray nothing.
The tray-like lid stays on.
Open {tray.points}.
See [that](procedure:tray-full).
""".strip().splitlines()


@pytest.mark.parametrize(("text", "words"), OTHER_WORDS.items())
def test_another_word_than_the_term(text: str, words: list[str]) -> None:
    for some in (said(text), said(remarks=[text]), said(others=[text])):
        assert [shown(one, text) for one in found(kb906_other_word, some)] == words


@pytest.mark.parametrize("text", RIGHT_WORDS)
def test_terms_and_words_inside_of_others(text: str) -> None:
    assert not found(kb906_other_word, said(text))


def test_a_word_that_may_stand_for_two_terms_names_both() -> None:
    (finding,) = found(kb906_other_word, said("Take the tray out."))
    assert finding.message == "The glossary calls “tray” “crate” or “cup”."


# --- KB907

UNKNOWN_CODES = {
    "Reset RM 13 once.": ["RM 13"],
    "Reset RM 311 once.": ["RM 311"],
    "Reset RM 3 once.": ["RM 3"],
    "Reset RM31 once.": ["RM31"],
    "Reset RM-31 once.": ["RM-31"],
    "Reset RM 35.3 once.": ["RM 35"],
    "Look for TR-25, not for TR-52.": ["TR-25"],
    "Look for N-21/1.": ["N-21"],
    "Look for 71-P.": ["71-P"],
    "Look for EL3 and EL 2.": ["EL3", "EL 2"],
    "Order HC-4163.": ["HC-4163"],
    "Order part (KW-T040).": ["KW-T040"],
}

KNOWN_CODES = """
Reset RM 31 and RM 31.3 once.
Look for TR-52, N-12/1, 17-P and EL2-B.
Order HC-4136 or KW-T004.
Open TR-7, the isolation point.
Look behind RM 90.
See that BC-1 stands.
Measure at D7, a terminal.
Fit a 2-P breaker and an N-1 plug.
Set RM 3111 by hand.
Measure X-RM 13, XRM 13 and RM 13x.
Set it to 31 rm 13 times.
Press {RM 13}.
""".strip().splitlines()


@pytest.mark.parametrize(("text", "codes"), UNKNOWN_CODES.items())
def test_a_code_that_the_tables_do_not_have(text: str, codes: list[str]) -> None:
    assert [shown(one, text) for one in found(kb907_unknown_code, said(text))] == codes


@pytest.mark.parametrize("text", KNOWN_CODES)
def test_codes_of_the_tables_and_what_is_no_code(text: str) -> None:
    assert not found(kb907_unknown_code, said(text))


def test_a_mistyped_code_is_met_with_the_right_one() -> None:
    (finding,) = found(kb907_unknown_code, said("Order HC-4163."))
    assert finding.help == "Did you mean “HC-4136”?"


def test_tables_without_codes_and_glossary_ask_for_nothing() -> None:
    speech = Speech(Shared(()), Language())
    assert not list(check_language(said("Take tray RM 13 out.", remarks=["Box"]), speech))


# --- All of them

WORST = "The tray should be taken out with RM 13, then close the lid. Warning: it is a heavy thing" + " and heavy" * 9


def test_a_rule_that_is_switched_off_finds_nothing() -> None:
    everything = {one.rule.code for one in check_language(said(WORST, "Go; stop it."), Speech(SHARED, Language()))}
    assert everything == {module.RULE.code for module in LANGUAGE_CHECKS}
    for code in everything:
        speech = Speech(SHARED, Language(off=(code,)))
        assert {one.rule.code for one in check_language(said(WORST, "Go; stop it."), speech)} == everything - {code}


PIECES = [
    " ", ", ", ". ", "; ", " then ", " and ", "If it is, ", "close", "Open ", "the valve", "Warning: ", "should",
    "tray", "RM ", "31", "HC-4163", "{supply.points}", "*", "**", "[", "](#x)", "\n", "* ", "400 V", "“", "ß", "\u0130",
]  # fmt: skip


@pytest.mark.parametrize("rule", LANGUAGE_CHECKS, ids=lambda rule: str(rule.RULE.code))
@given(text=st.lists(st.sampled_from(PIECES) | st.text(max_size=5), max_size=12).map("".join))
def test_whatever_is_said_is_judged_and_the_place_lies_within_it(rule: ModuleType, text: str) -> None:
    for finding in found(rule, said(text, remarks=[text], others=[text])):
        assert finding.message and finding.help
        assert 8 <= finding.at.column < finding.at.end_column <= 8 + len(text)


# --- In the tables


@pytest.mark.parametrize(
    ("good", "bad", "code"),
    [
        ("do: Take all tools out and see", "do: All tools are taken out, see", "KB902"),
        ("isolate: Open {supply.points}.", "isolate: Open {supply.points}; turn away.", "KB903"),
        ("unlock: Take off", "note: Beware of it.\n            unlock: Take off", "KB904"),
        ("energise: Close {supply.points}.", "energise: Please close {supply.points}.", "KB905"),
        ("at the motor terminals.", "at the motor terminals, please.", "KB905"),
        ("do: Take all tools out", "do: Take all tools off the head roller", "KB906"),
        ("extinguisher.", "extinguisher. N-13 is shown.", "KB907"),
    ],
)
def test_shared_sequences_and_proofs_are_judged_once_where_they_stand(
    good: str, bad: str, code: str, tmp_path: Path
) -> None:
    (finding,) = KnowledgeBase.copy_to(tmp_path).change(TABLES_FILE, good, bad).found(code)
    assert finding.at.path == TABLES_FILE


def test_a_proof_that_cannot_be_given_is_no_instruction(tmp_path: Path) -> None:
    base = KnowledgeBase.copy_to(tmp_path)
    base.change(TABLES_FILE, "prove: Test each phase", "prove: It cannot be proved. Test each phase")
    assert not base.codes() & {"KB902", "KB903"}


def test_steps_that_are_not_sound_are_not_judged(tmp_path: Path) -> None:
    base = KnowledgeBase.copy_to(tmp_path).change(SLIPS, "do: Wipe drum and belt dry.", "do: The drum is wiped dry.")
    assert base.found("KB902")
    base.change(SLIPS, "        takes: 10 min", "        takse: 10 min")
    assert not base.found("KB902")
