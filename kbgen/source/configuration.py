"""Find one's way in a configuration of MkDocs: what it inherits, and the options of a plugin."""

from __future__ import annotations

from kbgen.source.tree import Mapping, Node, Scalar, Sequence

_INHERIT = "INHERIT"


def inherited(root: Node) -> str | None:
    """The path of the configuration that this one is laid over, or None."""
    node = root.get(_INHERIT) if isinstance(root, Mapping) else None
    return node.text if isinstance(node, Scalar) and not node.is_blank else None


def merged(base: Node, over: Node) -> Node:
    """Lay a tree over another: groups of keys are merged key by key, anything else takes the place of the other."""
    if not isinstance(base, Mapping) or not isinstance(over, Mapping):
        return over
    own = {name.text for name, _ in over.entries}
    kept = [(name, value) for name, value in base.entries if name.text not in own]
    laid = []
    for name, value in over.entries:
        below = base.get(name.text)
        laid.append((name, value if below is None else merged(below, value)))
    return Mapping((*kept, *laid), over.at)


def option(root: Node, plugin: str) -> Node | None:
    """The options of a plugin, or its name where it has none; None where it is not among the plugins."""
    plugins = root.get("plugins") if isinstance(root, Mapping) else None
    if isinstance(plugins, Mapping):
        return plugins.get(plugin)
    for entry in plugins.items if isinstance(plugins, Sequence) else ():
        if isinstance(entry, Scalar) and entry.text == plugin:
            return entry
        options = entry.get(plugin) if isinstance(entry, Mapping) else None
        if options is not None:
            return options
    return None
