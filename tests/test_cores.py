"""Work spread over the cores gives what the same work one after the other gives."""

from __future__ import annotations

import pytest

from kbgen.cores import spread


def _square(number: int) -> int:
    if number == 777:
        raise ArithmeticError("seven hundred and seventy-seven")
    return number * number


@pytest.mark.parametrize("count", [0, 1, 99, 100, 500])
def test_results_come_in_the_order_of_the_items(count: int) -> None:
    assert list(spread(_square, range(count))) == [number * number for number in range(count)]


def test_an_error_in_the_work_is_not_lost() -> None:
    with pytest.raises(ArithmeticError):
        list(spread(_square, range(1000)))
