"""What the results of a search show beside the words that were found: signs of hazards, and how a document stands."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping

from kbgen.analysis.digest import Digest
from kbgen.model.shared import Shared
from kbgen.model.words import DocumentState
from kbgen.pages import addresses, wording
from kbgen.pages.hazards import hazard_line, hazard_views
from kbgen.site.search_entries import state_words


def finding_script(digests: Iterable[Digest], shared: Shared) -> str:
    """Return a classic script that sets `kbgen.findingData`: ASCII, without "<".

    The day on which each review falls due is in it, as only the reader's clock can tell whether that day is over.
    """
    parts = {"due": _due(digests), "signs": _signs(shared), "states": _states()}
    data = json.dumps(parts, separators=(",", ":")).replace("<", "\\u003c")
    return f"(globalThis.kbgen = globalThis.kbgen || {{}}).findingData = {data};\n"


def _due(digests: Iterable[Digest]) -> Mapping[str, str]:
    """The addresses of the procedures by the day on which their review falls due, with spaces between."""
    found: dict[str, list[str]] = {}
    for digest in digests:
        found.setdefault(digest.review_due.isoformat(), []).append(addresses.procedure(digest.id))
    return {day: " ".join(sorted(found[day])) for day in sorted(found)}


def _signs(shared: Shared) -> Mapping[str, Mapping[str, str]]:
    views = hazard_views(sorted(shared.hazards), shared)
    return {hazard_line(view): {"panel": view.panel, "sign": view.sign_code} for view in views}


def _states() -> Mapping[str, Mapping[str, object]]:
    return {
        state_words(state.value): {
            "released": state is DocumentState.APPROVED,
            "withdrawn": state is DocumentState.WITHDRAWN,
            "words": wording.DOCUMENT[state],
        }
        for state in DocumentState
    }
