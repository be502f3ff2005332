"""Digests and shared tables -> what the search knows."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from kbgen.analysis.digest import Digest
from kbgen.model.shared import Shared
from kbgen.model.tables import Part, Tool
from kbgen.pages.addresses import PARTS, TOOLS, procedure
from kbgen.pages.hazards import hazard_line, hazard_views
from kbgen.prose import plain
from kbgen.search.entry import Channel, Code, Entry, Symptom

_HAZARDS_SHOWN = 3


def search_entries(digests: Iterable[Digest], shared: Shared) -> list[Entry]:
    """The entries of the procedures, of the spare parts and of the tools."""
    procedures = [_procedure(digest, shared) for digest in digests]
    parts = [_part(part, shared) for part in shared.parts.values()]
    return [*procedures, *parts, *(_tool(tool) for tool in shared.tools.values())]


def search_channels(shared: Shared) -> list[Channel]:
    """What each axis, unit or channel of a display serves, with the mark of the machine."""
    return [
        Channel(_display(str(module.display), shared), str(module.channel), f"{unit.tag}: {module.serves}")
        for unit in shared.units.values()
        for module in unit.modules
    ]


def _procedure(digest: Digest, shared: Shared) -> Entry:
    """The entry of a procedure. Tools and parts are found by name and number, causes by their words."""
    tools = [str(shared.tools[one.name].name) for one in digest.tools if one.name in shared.tools]
    parts = [shared.parts[one.name] for one in digest.parts if one.name in shared.parts]
    return Entry(
        href=procedure(digest.id),
        kind="procedure",
        title=digest.title,
        equipment=digest.equipment,
        family=_family(digest.family, shared),
        codes=tuple(_code(one.display, one.code, shared) for one in digest.codes),
        symptoms=tuple(Symptom(one.text, one.also) for one in digest.symptoms),
        words=(
            digest.summary,
            *digest.causes,
            *_shown_otherwise(digest, shared),
            *tools,
            *(f"{part.name} {part.number}" for part in parts),
        ),
        state=state_words(digest.state),
        hazards=tuple(hazard_line(view) for view in hazard_views(digest.hazards, shared)[:_HAZARDS_SHOWN]),
    )


def state_words(state: str) -> str:
    """The state of a document as an entry gives it."""
    return state.replace("-", " ")


def _code(display: str, code: str, shared: Shared) -> Code:
    alarm = shared.alarms.get((display, code))
    return Code(code, _display(display, shared), str(alarm.text) if alarm else "")


def _shown_otherwise(digest: Digest, shared: Shared) -> Iterator[str]:
    """The words that displays with other software show for the codes."""
    for code in digest.codes:
        alarm = shared.alarms.get((code.display, code.code))
        yield from (str(one.text) for one in alarm.texts) if alarm else ()


def _part(part: Part, shared: Shared) -> Entry:
    families = [_family(str(name), shared) for name in part.fits]
    later = shared.parts.get(part.replaced_by) if part.replaced_by else None
    return Entry(
        href=f"{PARTS}#part-{part.id}",
        kind="part",
        title=str(part.name),
        equipment=", ".join(families),
        family=families[0] if len(families) == 1 else "",
        codes=(Code(str(part.number), "", ""),),
        symptoms=(),
        words=(f"Replaced by {later.name} {later.number}",) if later else (),
        state="",
        hazards=(),
    )


def _tool(tool: Tool) -> Entry:
    remark = (plain(tool.remark),) if tool.remark else ()
    return Entry(f"{TOOLS}#tool-{tool.id}", "tool", str(tool.name), "", "", (), (), remark, "", ())


def _family(name: str, shared: Shared) -> str:
    return str(shared.families[name].name) if name in shared.families else name


def _display(name: str, shared: Shared) -> str:
    return str(shared.displays[name].name) if name in shared.displays else name
