"""All rules and all checks, in one explicit list."""

from __future__ import annotations

import copyreg
from collections.abc import Iterable, Iterator

from kbgen.analysis.digest import Digest
from kbgen.check import (
    kb109_unsafe_prose,
    kb201_unknown_reference,
    kb202_name_given_twice,
    kb203_unusable_picture,
    kb204_unknown_callout,
    kb205_not_in_before,
    kb206_never_used,
    kb207_unfit_run,
    kb208_unknown_sign,
    kb209_unfit_reference,
    kb210_unknown_procedure,
    kb211_unknown_placeholder,
    kb212_unfit_site_note,
    kb301_unreachable_step,
    kb302_dead_end,
    kb303_endless_loop,
    kb304_same_answers,
    kb305_unstated_work,
    kb306_bare_outcome,
    kb307_unfit_band,
    kb308_check_without_time,
    kb401_review_overdue,
    kb402_void_approval,
    kb403_shared_code,
    kb404_lost_address,
    kb501_energy_not_as_needed,
    kb502_unproved_reach,
    kb503_isolation_out_of_order,
    kb504_unready_restart,
    kb505_unfit_proof,
    kb506_wait_too_short,
    kb507_wait_without_data,
    kb508_bare_live_work,
    kb509_left_isolated,
    kb601_left_open,
    kb602_change_out_of_turn,
    kb603_unchecked_swap,
    kb701_unfit_unit,
    kb702_band_gap,
    kb703_vague_source,
    kb704_unfit_formula,
    kb801_window_missed,
    kb802_window_unknown,
)
from kbgen.check.case import Case, Overview, TablesCase
from kbgen.check.language_checks import LANGUAGE_CHECKS, check_language
from kbgen.check.speech import Speech, said_in, said_in_tables
from kbgen.diagnostics import Diagnostic, Rule
from kbgen.library.ledger import Address
from kbgen.model.rules import DECODING_RULES
from kbgen.model.scopes import Mention
from kbgen.model.values import Kind
from kbgen.source.rules import READING_RULES

# Checks of the steps need nothing but the steps; the others need the whole procedure to be sound.
STEP_CHECKS = (
    kb301_unreachable_step,
    kb302_dead_end,
    kb303_endless_loop,
    kb304_same_answers,
    kb306_bare_outcome,
    kb307_unfit_band,
    kb308_check_without_time,
    kb701_unfit_unit,
    kb702_band_gap,
    kb703_vague_source,
    kb704_unfit_formula,
)
WHOLE_CHECKS = (
    kb203_unusable_picture,
    kb204_unknown_callout,
    kb205_not_in_before,
    kb206_never_used,
    kb207_unfit_run,
    kb209_unfit_reference,
    kb305_unstated_work,
    kb402_void_approval,
    kb501_energy_not_as_needed,
    kb502_unproved_reach,
    kb503_isolation_out_of_order,
    kb504_unready_restart,
    kb505_unfit_proof,
    kb506_wait_too_short,
    kb507_wait_without_data,
    kb508_bare_live_work,
    kb509_left_isolated,
    kb601_left_open,
    kb602_change_out_of_turn,
    kb603_unchecked_swap,
    kb801_window_missed,
    kb802_window_unknown,
)
OVERVIEW_CHECKS = (kb210_unknown_procedure, kb212_unfit_site_note, kb401_review_overdue, kb403_shared_code)

RULES: tuple[Rule, ...] = tuple(
    sorted(
        (
            *READING_RULES,
            *DECODING_RULES,
            kb109_unsafe_prose.RULE,
            kb201_unknown_reference.RULE,
            kb202_name_given_twice.RULE,
            kb208_unknown_sign.RULE,
            kb211_unknown_placeholder.RULE,
            kb404_lost_address.RULE,
            *(module.RULE for module in (*STEP_CHECKS, *WHOLE_CHECKS, *OVERVIEW_CHECKS, *LANGUAGE_CHECKS)),
        ),
        key=lambda rule: rule.code,
    )
)


_BY_CODE = {one.code: one for one in RULES}


def rule(code: str) -> Rule | None:
    """The rule with a code or a name, or None."""
    wanted = code.strip().lower()
    return next((one for one in RULES if wanted in (one.code.lower(), one.name)), None)


def _of_code(code: str) -> Rule:
    return _BY_CODE[code]


def _stored(one: Rule) -> str | tuple[object, ...]:
    """A finding is stored with the code of its rule, not with all the words about it."""
    return (_of_code, (one.code,)) if _BY_CODE.get(one.code) is one else one.__reduce_ex__(2)


copyreg.pickle(Rule, _stored)  # type: ignore[arg-type]  # what a reducer may return is wider than typed there


def check_procedure(case: Case, speech: Speech) -> Iterator[Diagnostic]:
    """Check one procedure by itself, as far as it is sound enough for each check."""
    decoded = case.decoded
    yield from kb109_unsafe_prose.check(decoded.prose)
    yield from kb201_unknown_reference.check(decoded.names, decoded.refs, case.shared)
    yield from kb211_unknown_placeholder.check(decoded.prose, decoded.names, case.shared)
    yield from kb202_name_given_twice.check([decoded.names])
    if "steps" not in decoded.unsound:
        for module in STEP_CHECKS:
            yield from module.check(case)
        yield from check_language(said_in(case.procedure.steps, decoded.prose), speech)
    if not decoded.unsound:
        for module in WHOLE_CHECKS:
            yield from module.check(case)


def check_tables(speech: Speech) -> Iterator[Diagnostic]:
    """Check the shared tables by themselves."""
    shared = speech.shared
    case = TablesCase(shared)
    for file in shared.files:
        yield from kb109_unsafe_prose.check(file.prose)
        yield from kb201_unknown_reference.check(file.names, file.refs, shared)
        yield from kb211_unknown_placeholder.check(file.prose, file.names, shared)
    yield from kb202_name_given_twice.check([file.names for file in shared.files])
    if not any(file.unsound for file in shared.files):
        yield from kb208_unknown_sign.check(case)
        yield from kb209_unfit_reference.check_tables(case)
        yield from kb301_unreachable_step.check_tables(case)
        yield from kb302_dead_end.check_tables(case)
        yield from kb303_endless_loop.check_tables(case)
        yield from kb304_same_answers.check_tables(case)
        yield from kb305_unstated_work.check_tables(case)
        yield from kb307_unfit_band.check_tables(case)
        yield from kb701_unfit_unit.check_tables(case)
        yield from kb702_band_gap.check_tables(case)
        yield from kb703_vague_source.check_tables(case)
        yield from kb704_unfit_formula.check_tables(case)
        yield from check_language(said_in_tables(speech), speech)


def check_overview(overview: Overview, published: Iterable[Address]) -> Iterator[Diagnostic]:
    """Check what concerns several procedures at once."""
    for module in OVERVIEW_CHECKS:
        yield from module.check(overview)
    yield from kb202_name_given_twice.check(_procedure_names(overview.digests))
    yield from kb404_lost_address.check(overview, published)


def _procedure_names(digests: Iterable[Digest]) -> Iterator[list[Mention]]:
    yield from ([Mention(Kind.PROCEDURE, digest.named, 0)] for digest in digests)
