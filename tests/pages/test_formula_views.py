"""The list of formulas shows every formula with what an author must know."""

from __future__ import annotations

from markupsafe import Markup

from kbgen.formulas.registry import FORMULAS
from kbgen.model.shared import Shared
from kbgen.pages.addresses import formula
from kbgen.pages.formula_views import formula_views
from kbgen.pages.overview_pages import overview_pages

VIEWS = {one.name: one for one in formula_views()}


def test_every_formula_is_listed_under_its_address() -> None:
    assert VIEWS.keys() == FORMULAS.keys()
    pages = {page.path: page.html for page in overview_pages(Shared(()), (), ())}
    for name, one in FORMULAS.items():
        assert f'id="{formula(name).partition("#")[2]}"' in pages["formulas.html"]
        for sentence in one.not_for:
            assert Markup.escape(sentence) in pages["formulas.html"]
    assert 'href="formulas.html"' in pages["authors.html"]


def test_inputs_have_unit_range_and_remark() -> None:
    poles = VIEWS["motor-slip"].inputs[1]
    assert (poles.name, poles.unit, poles.range) == ("poles", "1 (a plain number)", "one of a list")
    assert poles.remark.startswith("known beforehand: give its value; 2; 4; 6")
    low = VIEWS["loop-value"].inputs[1]
    assert (low.unit, low.range) == ("any, of one kind", "−1,000,000,000 to 1,000,000,000")
    assert VIEWS["pt100-temperature"].inputs[0].range == "18.52 to 390.49"


def test_results_have_unit_and_range_or_classes() -> None:
    assert VIEWS["voltage-unbalance"].result == "Unbalance, in %, 0 to 200"
    assert VIEWS["loop-value"].result.startswith("Value, in the unit of the values, ")
    assert VIEWS["vibration-zone"].result == "Zone, a plain number (unit 1)"
    assert VIEWS["vibration-zone"].classes[3] == "4: zone D, harmful"
    assert VIEWS["cylinder-pull"].requires == ("the rod is thinner than the bore",)
    assert VIEWS["superheat"].table.startswith("Dew-point temperature over pressure: x in the unit of pressure")
    assert VIEWS["insulation-at-40-thermoplastic"].source.endswith("(from memory: compare it with the document)")
