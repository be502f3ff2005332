"""Formulas as plain data that can be written as JSON and worked out in another language."""

from __future__ import annotations

from collections.abc import Iterable

from kbgen.formulas.formula import Choice, Formula, variable


def portable(formula: Formula) -> dict[str, object]:
    """Everything that is needed to ask for the inputs, to check them and to work the result out."""
    return {
        "name": formula.name,
        "title": formula.title,
        "inputs": [
            {
                "name": one.name,
                "variable": variable(one.name),
                "what": one.what,
                "unit": one.unit,
                "lowest": float(one.lowest),
                "highest": float(one.highest),
                "fixed": one.fixed,
                "choices": _choices(one.choices),
            }
            for one in formula.inputs
        ],
        "requires": [
            {"tree": tree, "words": one.words} for one, tree in zip(formula.requires, formula.conditions, strict=True)
        ],
        "table": formula.table and {"x_like": formula.table.x_like, "y_like": formula.table.y_like},
        "tree": formula.tree,
        "result": {
            "what": formula.result.what,
            "unit": formula.result.unit,
            "lowest": float(formula.result.lowest),
            "highest": float(formula.result.highest),
            "classes": _choices(formula.result.classes),
        },
    }


def _choices(choices: Iterable[Choice]) -> list[object]:
    return [{"number": float(one.number), "words": one.words} for one in choices]
