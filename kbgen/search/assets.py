"""Which files the home page loads for the search.

All but the last of the scripts are one file in the site: on a slow tablet thirty files take a tenth of a second longer.
"""

STYLE = "css/search.css"

_NAMES = (
    "tables normalise packed engine codes spelling kin synonyms question hits channels lines reasons ranking query "
    "address kept standing near nodes results nothing outcome filters keys recents view"
)
SCRIPTS: tuple[str, ...] = tuple(f"js/search/{name}.js" for name in _NAMES.split())
"""Classic scripts under site_templates, in the order in which they run."""

TOGETHER = "js/search.js"
LOADED: tuple[str, ...] = (TOGETHER, SCRIPTS[-1])
"""What a page loads; the script that `index.script` returns comes before the last."""
