"""Which files the home page loads for the search, in this order."""

STYLE = "css/search.css"

SCRIPTS: tuple[str, ...] = (
    "vendor/lunr/lunr.min.js",
    "js/search/tables.js",
    "js/search/normalise.js",
    "js/search/codes.js",
    "js/search/engine.js",
    "js/search/question.js",
    "js/search/reasons.js",
    "js/search/query.js",
    "js/search/results.js",
    "js/search/view.js",
)
"""Classic scripts under site_templates; the one that `index.script` returns comes before the last."""
