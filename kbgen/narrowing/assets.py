"""Which files a page for narrowing down loads, in this order."""

SCRIPTS: tuple[str, ...] = (
    "js/narrow/model.js",
    "js/narrow/posterior.js",
    "js/narrow/question.js",
    "js/narrow/sureness.js",
    "js/narrow/narrow.js",
    "js/narrow/address.js",
    "js/narrow/words.js",
    "js/narrow/nodes.js",
    "js/narrow/faults.js",
    "js/narrow/view.js",
)
"""Classic scripts under site_templates; the one that `data.script` returns comes before the last."""
