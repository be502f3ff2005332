"""Measures of the drawing, in CSS pixels, shared by all that draw or check it."""

from __future__ import annotations

MAX_WIDTH = 770.0
MARGIN = 8.0

FONT = 16.0
LINE = 20.0
BASELINE = 5.5
"""How far below the middle of a line its baseline lies: half the font's capital height."""
TEXT_LIMIT = 180.0

LABEL_FONT = 15.0
LABEL_LINE = 18.0
LABEL_BASELINE = 5.0
LABEL_LIMIT = 116.0
LABEL_LIMIT_MANY = 92.0
LABEL_PAD = 4.0

MARK = 22.0
MARK_STEP = 24.0
MARK_GAP = 6.0

CORNER = 20.0
"""Largest corner radius of a terminator."""
SLANT = 14.0
"""Inset of a manual operation's foot, and drop of a manual input's top."""
POINT = 18.0
"""Depth of the points of a preparation hexagon."""
BULGE = 24.0
"""Depth of the rounded side of a wait."""
BAR = 9.0
"""Distance of a predefined process's bars from its sides."""
