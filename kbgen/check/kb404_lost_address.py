"""KB404: an address that was published would be lost."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from kbgen.diagnostics import Diagnostic, Example, Rule, Severity
from kbgen.library.ledger import Address
from kbgen.model.values import Text

from .case import Overview
from .near import did_you_mean

RULE = Rule(
    code="KB404",
    name="lost-address",
    severity=Severity.ERROR,
    summary="A page or step that was published has no address any more.",
    rationale=(
        "Labels on machines, training courses and notes link to it. A link that breaks at the machine is found too "
        "late."
    ),
    remedy="Bring the id back, or add a redirect from the old address to the new one under redirects in a table file.",
    example=Example("conveyors/belt-slips.yaml", good="      - id: wet\n", bad="      - id: wet-or-greasy\n"),
)


def check(overview: Overview, published: Iterable[Address]) -> Iterator[Diagnostic]:
    """Compare the published addresses with the present ones, redirects counted in, once all files can be read."""
    if not overview.complete:
        return
    moved = {str(one.from_) for one in overview.shared.redirects}
    anchors = {digest.id: set(digest.anchors) for digest in overview.digests}
    for address in published:
        if address.procedure in moved or str(address) in moved:
            continue
        if address.procedure not in anchors or (address.step and address.step not in anchors[address.procedure]):
            message = f"The published address “{address}” would be lost."
            yield Diagnostic(RULE, address.at, message, RULE.remedy)
    for redirect in overview.shared.redirects:
        yield from _target(redirect.to, anchors)


def _target(to: Text, anchors: dict[str, set[str]]) -> Iterator[Diagnostic]:
    procedure, _, step = to.partition("#")
    if procedure not in anchors or (step and step not in anchors[procedure]):
        message = f"The redirect leads to “{to}”, which does not exist."
        yield Diagnostic(RULE, to.at, message, did_you_mean(procedure, anchors, RULE.remedy))
