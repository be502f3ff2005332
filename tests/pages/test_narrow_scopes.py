"""Which faults compete with each other, and what the demo may propose."""

from __future__ import annotations

from pathlib import Path

import pytest

from kbgen.analysis.digest import Digest
from kbgen.cache import no_cache
from kbgen.examine import examine, open_case
from kbgen.library.folder import Folder
from kbgen.model.words import EnergyState, Person
from kbgen.narrowing.model import SYMPTOM
from kbgen.narrowing.narrow import narrow
from kbgen.pages.narrow_scopes import Scope, scopes_of

DEMO = Folder(Path(__file__).parents[2] / "procedures", "procedures")
EXAMINED = examine(DEMO, None, no_cache())
SCOPES = scopes_of(EXAMINED.shared, EXAMINED.digests)
PLACES = {
    (str(case.procedure.id), key): place
    for file in DEMO.procedure_files()
    if (case := open_case(DEMO, file, EXAMINED.shared)[0])
    for key, place in case.route.places.items()
}
BY_PAGE = pytest.mark.parametrize("scope", SCOPES.all, ids=lambda scope: scope.page)


def ids(scope: Scope) -> list[str]:
    return [fault.id for fault in scope.known.faults]


def test_every_procedure_is_among_those_of_its_family() -> None:
    for digest in EXAMINED.digests:
        page = SCOPES.of_family[digest.family]
        assert digest.id in ids(next(one for one in SCOPES.all if one.page == page))


def test_a_display_of_one_family_leads_to_that_family() -> None:
    assert SCOPES.of_display["bay-panel"] == "narrow/family-dock-leveller.html"


def test_a_display_of_several_families_lets_their_faults_compete() -> None:
    room = next(one for one in SCOPES.all if one.page == SCOPES.of_display["room-panel"])
    assert {"cooler-iced-up", "cooler-fan-stands", "room-temperature-wrong"} == set(ids(room))
    assert room.page == "narrow/display-room-panel.html"


def test_a_withdrawn_procedure_does_not_compete() -> None:
    def withdrawn(digest: Digest) -> Digest:
        return digest._replace(state="withdrawn") if digest.id == "cooler-iced-up" else digest

    found = scopes_of(EXAMINED.shared, [withdrawn(one) for one in EXAMINED.digests])
    assert not any("cooler-iced-up" in ids(scope) for scope in found.all)
    assert any("cooler-fan-stands" in ids(scope) for scope in found.all)


def test_a_family_whose_procedures_are_all_withdrawn_has_no_page() -> None:
    found = scopes_of(EXAMINED.shared, [one._replace(state="withdrawn") for one in EXAMINED.digests])
    assert (found.all, dict(found.of_family), dict(found.of_display)) == ((), {}, {})


@BY_PAGE
def test_whatever_is_answered_only_looks_from_outside_are_proposed(scope: Scope) -> None:
    for answer in (True, False, None):
        answers: dict[int, bool] = {}
        passed: set[int] = set()
        while (question := narrow(scope.model, answers, passed).question) is not None:
            found = scope.model.observations[question.observation].by_looking
            if found:
                place = PLACES[scope.model.faults[found.fault].id, found.look.step]
                assert place.person is Person.OUTSIDE
                assert set(place.energy.values()) <= {EnergyState.LIVE, EnergyState.ANY}
            if answer is None:
                passed.add(question.observation)
            else:
                answers[question.observation] = answer


@BY_PAGE
def test_what_a_cause_shows_leads_to_its_fault(scope: Scope) -> None:
    for number, fault in enumerate(scope.known.faults):
        for cause in range(len(fault.causes)):
            shown = {
                place: True
                for place, one in enumerate(scope.model.observations)
                for chances in one.chances
                if chances.fault == number and one.kind == SYMPTOM and chances.given and chances.by_cause[cause] >= 0.5
            }
            assert narrow(scope.model, shown).ranking[0].fault == number or not shown, (fault.id, cause)
