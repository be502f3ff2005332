"""Whether a test can show that a kind of energy is gone."""

from __future__ import annotations

from tests.proof.tables import Data
from tests.proof.units import OtherDimensionError, split, value_in

SAFE_VOLTS = 60.0  # IEC 60204-1, 6.2.4: parts below 60 V (as quoted)

# Common practice of the trades; hydrogen and other gases cannot be seen.
_MEANS = {
    "electrical": ("voltage-test",),
    "stored-electrical": ("voltage-test",),
    "second-supply": ("voltage-test",),
    "pneumatic": ("gauge", "look"),
    "hydraulic": ("gauge", "look"),
    "thermal": ("thermometer",),
    "chemical": ("gauge",),
    "gravity": ("look",),
    "spring": ("look",),
    "kinetic": ("look", "try-to-start"),
}
_MEASURED_IN = {"voltage-test": "V", "thermometer": "°C"}
_GAUGED_IN = {"pneumatic": "bar", "hydraulic": "bar"}


def unfit(step: Data, kind: str) -> str:
    """Say why a proof does not show the absence of a kind of energy; empty where it does."""
    by = step.get("by")
    if by not in _MEANS[kind]:
        return f"{kind} energy cannot be shown absent by {by}"
    if by == "voltage-test":
        return _unfit_voltage_test(step)
    if by in ("gauge", "thermometer") and "below" not in step:
        return "the reading has no limit"
    return _unfit_limit(step, _GAUGED_IN.get(kind, "") if by == "gauge" else _MEASURED_IN.get(by, ""))


def _unfit_voltage_test(step: Data) -> str:
    if step.get("tester-proved") != "before-and-after":
        return "the tester is not proved before and after"
    if "below" not in step:
        return "the test has no limit"
    wrong = _unfit_limit(step, "V")
    if wrong or not split(step["below"])[1]:
        return wrong or "the limit has no unit"
    return f"{step['below']} is not safe" if value_in(step["below"], "V") > SAFE_VOLTS else ""


def _unfit_limit(step: Data, unit: str) -> str:
    if not unit or "below" not in step:
        return ""
    try:
        value_in(step["below"], unit)
    except OtherDimensionError:
        return f"{step['below']} is no reading of this test"
    return ""
