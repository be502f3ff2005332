"""What the page shows of a reading: its limits, and how a derived one is worked out."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from markupsafe import Markup

from kbgen.formulas.formula import Formula
from kbgen.formulas.registry import FORMULAS
from kbgen.model.steps import Band, Read, ReadingInput
from kbgen.model.values import Quantity
from kbgen.pages import addresses, wording
from kbgen.pages.figures import PLAIN_NUMBER, figure
from kbgen.pages.line import Line


def reading_lines(step: Read) -> Iterable[Line]:
    """The limits of a reading and their source, and the inputs, formula and table of a derived one."""
    formula = FORMULAS.get(step.formula) if step.formula else None
    accepted = [limits(band, step.unit) for band in step.bands if band.accepted]
    if accepted:
        yield Line("Accept", Markup.escape(" or ".join(accepted)))
    for one in step.inputs:
        yield Line("Value", Markup.escape(_value(one, formula)))
    if formula is not None:
        yield from _formula_lines(step, formula)
    yield Line("Limit from", Markup.escape(f"{wording.SOURCE[step.source.kind]}: {step.source.reference}"))


def limits(band: Band, unit: str) -> str:
    """The limits of a band in words; the unit stands once where that is clear."""
    parts = []
    behind = "" if band.to or band.below else unit
    if band.from_:
        parts.append(f"from {_with_unit(band.from_, behind)}")
    if band.above:
        parts.append(f"above {_with_unit(band.above, behind)}")
    if band.to:
        parts.append(f"to {_with_unit(band.to, unit)}")
    if band.below:
        parts.append(f"below {_with_unit(band.below, unit)}")
    return " ".join(parts)


def shown_unit(step: Read) -> str:
    """The unit behind the box for the reading."""
    return "(a plain number)" if step.unit == PLAIN_NUMBER else str(step.unit)


def _with_unit(quantity: Quantity, unit: str) -> str:
    return f"{quantity}" if quantity.unit or unit in ("", PLAIN_NUMBER) else f"{quantity} {unit}"


def _value(one: ReadingInput, formula: Formula | None) -> str:
    if one.value is None:
        return f"{one.text}, in {one.unit}" if one.unit != PLAIN_NUMBER else str(one.text)
    known = (its for its in (formula.inputs if formula else ()) if its.name == one.id)
    choices = (choice for its in known for choice in its.choices)
    words = next((f" ({choice.words})" for choice in choices if choice.number == one.value.number and choice.words), "")
    return f"{one.text}: {_with_unit(one.value, one.unit)}{words}"


def _formula_lines(step: Read, formula: Formula) -> Iterator[Line]:
    link = Markup('<a href="../{}">{}</a>').format(addresses.formula(formula.name), formula.title)
    yield Line("Worked out", Markup("{}: {}.").format(link, formula.in_words))
    if formula.table and step.table:
        yield Line("Table", _table(step, formula))
    if formula.result.classes:
        yield Line("Result", Markup("<br>").join(map(str, formula.result.classes)))
    source = f"{formula.source.basis.value.capitalize()}: {formula.source}"
    yield Line("Formula from", Markup.escape(source))
    yield Line("Not for", Markup("<br>").join(formula.not_for))


def _table(step: Read, formula: Formula) -> Markup:
    """The table that is looked up, for who has to do it by hand."""
    assert formula.table is not None
    units = {str(one.id): str(one.unit) for one in step.inputs}
    columns = ((formula.table.x, formula.table.x_like), (formula.table.y, formula.table.y_like))
    head = Markup("").join(
        Markup('<th scope="col">{}, {}</th>').format(what, units.get(like, "")) for what, like in columns
    )
    rows = Markup("").join(
        Markup("<tr><td>{}</td><td>{}</td></tr>").format(figure(row.x), figure(row.y)) for row in step.table
    )
    return Markup(
        'Between two rows in proportion, outside of them none.<table class="kb-table"><thead><tr>{}</tr></thead>'
        "<tbody>{}</tbody></table>"
    ).format(head, rows)
