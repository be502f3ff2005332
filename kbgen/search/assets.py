"""Which files the home page loads for the search, in this order."""

STYLE = "css/search.css"

_NAMES = (
    "tables normalise packed engine codes spelling kin synonyms question hits channels lines reasons ranking query "
    "address kept standing near nodes results nothing outcome filters keys recents view"
)
SCRIPTS: tuple[str, ...] = tuple(f"js/search/{name}.js" for name in _NAMES.split())
"""Classic scripts under site_templates; the one that `index.script` returns comes before the last."""
