"""Formulas of derived readings: each is defined once, as text that is read into a tree of plain lists.

The tree is what is worked out, here and in the browser: see ``tree.py`` for its nodes and ``registry.py`` for the list.
"""
