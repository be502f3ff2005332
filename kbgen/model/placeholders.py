"""Places in a text for what the tables say of an energy source: {supply}, {supply.points}, {supply.prove}."""

from __future__ import annotations

import re

PLACEHOLDER = re.compile(r"\{([a-z0-9-]+)(?:\.([a-z]+))?\}")
PROPERTIES = ("points", "prove")
