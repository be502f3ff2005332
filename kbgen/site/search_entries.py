"""Digest -> what the search knows of a procedure."""

from __future__ import annotations

from kbgen.analysis.digest import Digest
from kbgen.model.shared import Shared
from kbgen.pages.addresses import procedure
from kbgen.pages.hazards import hazard_views
from kbgen.search.entry import Code, Entry, Symptom

_HAZARDS_SHOWN = 3


def search_entry(digest: Digest, shared: Shared) -> Entry:
    """The entry of a procedure. Tools and parts are found by name and number, causes by their words."""
    tools = [str(shared.tools[one.name].name) for one in digest.tools if one.name in shared.tools]
    parts = [shared.parts[one.name] for one in digest.parts if one.name in shared.parts]
    words = [digest.summary, *digest.causes, *tools, *(f"{part.name} {part.number}" for part in parts)]
    return Entry(
        href=procedure(digest.id),
        kind="procedure",
        title=digest.title,
        equipment=digest.equipment,
        family=digest.family,
        codes=tuple(_code(one.display, one.code, shared) for one in digest.codes),
        symptoms=tuple(Symptom(one.text, one.also) for one in digest.symptoms),
        words=". ".join(words),
        state=digest.state.replace("-", " "),
        hazards=tuple(f"{view.word}: {view.what}" for view in hazard_views(digest.hazards, shared)[:_HAZARDS_SHOWN]),
    )


def _code(display: str, code: str, shared: Shared) -> Code:
    alarm = shared.alarms.get((display, code))
    name = str(shared.displays[display].name) if display in shared.displays else display
    return Code(code, name, str(alarm.text) if alarm else "")
