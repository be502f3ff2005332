"""The tree of a formula: numbers, words and lists, nothing else, so that it can be written as JSON.

A node is a number, or a list that begins with one of these words. All numbers are IEEE 754 doubles, and every
operation rounds to one. A step without a finite value is an error, never a NaN or an infinity.

=============================  ==========================================================================
``["name", n]``                the input or intermediate value ``n``
``["let", n, v, rest]``        ``rest``, in which ``n`` stands for the value of ``v``
``["if", c, a, b]``            ``a`` if the condition ``c`` holds, else ``b``; the other one is not worked out
``["+", a, b]``, - * /         the four operations
``["negative", a]``            the opposite number
``["power", a, n]``            ``a`` multiplied by itself, from left to right; ``n`` is a whole number from 2 to 9
``["min", a, b, ...]``, max    the lowest or highest of two or more; the first of equal ones
``["abs", a]``, floor, sqrt    magnitude; whole number at or below; square root, exactly rounded
``["ln", a]``, exp             as the platform has them: the last place may differ from one to the next
``["polynomial", a, c]``       c[0] + c[1]·a + c[2]·a² + ...: start with the last of the list ``c``, then for each
                               one before it multiply by ``a`` and add it
``["interpolate", t, a]``      between the rows (x, y) of the table ``t`` by rising x: with the last row whose x is
                               not above ``a`` and the next, y0 + (y1 - y0) * ((a - x0) / (x1 - x0)); y0 where
                               ``a`` is x0; an error where ``a`` lies outside the table
``["root", n, l, h, e]``       the value of ``n`` between ``l`` and ``h`` at which ``e`` is zero: the interval is
                               halved 60 times, keeping the half at whose ends the sign of ``e`` differs (zero counts
                               as positive), then its middle is taken; an error where the signs are the same at both
``["<", a, b]``, <= > >= ==    conditions: they compare two numbers
``["and", c, d, ...]``, or     all hold, one holds; worked out from the left as far as needed
``["not", c]``                 does not hold
=============================  ==========================================================================
"""

from __future__ import annotations

from typing import TypeAlias

Tree: TypeAlias = "float | str | list[Tree]"

ARITHMETIC = ("+", "-", "*", "/")
COMPARISONS = ("<", "<=", ">", ">=", "==")
OF_ONE = ("abs", "floor", "sqrt", "ln", "exp")
OF_SEVERAL = ("min", "max")
HIGHEST_POWER = 9
HALVINGS = 60
