"""The pages that list: home, codes, equipment, tools, parts, glossary, and those for authors."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby
from typing import TypeVar

from markupsafe import Markup

from kbgen.analysis.digest import Digest, UsedAt
from kbgen.diagnostics import Rule
from kbgen.draw.legend import legend_svg
from kbgen.model.shared import Shared
from kbgen.model.tables import Alarm, Display, Family, Part, Tool
from kbgen.model.words import DocumentState
from kbgen.narrowing.assumed import ASSUMPTIONS
from kbgen.pages import addresses, wording
from kbgen.pages.filter_choices import display_choices, family_choices
from kbgen.pages.formula_views import formula_views
from kbgen.pages.glossary import WORDS
from kbgen.pages.hazards import signs_of_hazards
from kbgen.pages.page import Page
from kbgen.pages.templates import render
from kbgen.prose import render as render_blocks
from kbgen.prose import render_inline
from kbgen.search import assets
from kbgen.signs.svg import symbol_sheet

Item = TypeVar("Item", Tool, Part)


@dataclass(frozen=True)
class Listed:
    """A procedure in a list."""

    title: str
    href: str
    summary: str
    equipment: str
    state: str
    is_released: bool


@dataclass(frozen=True)
class UsedBy:
    """A procedure that uses a tool or part, and when."""

    title: str
    href: str
    when: str


@dataclass(frozen=True)
class CodeRow:
    """A code of a display, with the procedures it leads to."""

    alarm: Alarm
    anchor: str
    procedures: tuple[Listed, ...]


@dataclass(frozen=True)
class OverviewContext:
    """What all these pages are made from."""

    shared: Shared
    digests: Sequence[Digest]

    def listed(self, digests: Iterable[Digest], root: str) -> tuple[Listed, ...]:
        """Procedures as list entries, in the order of their titles; withdrawn ones last."""
        ordered = sorted(
            digests, key=lambda one: (one.state == DocumentState.WITHDRAWN.value, one.title.lower(), one.id)
        )
        return tuple(_listed(one, root) for one in ordered)


def overview_pages(shared: Shared, digests: Sequence[Digest], rules: Sequence[Rule]) -> tuple[Page, ...]:
    """All pages that are not procedures."""
    context = OverviewContext(shared, digests)
    return (
        _home(context),
        _codes(context),
        *(_display(context, display) for display in shared.displays.values()),
        _equipment(context),
        *(_family(context, family) for family in shared.families.values()),
        _tools(context),
        _parts(context),
        _glossary(context),
        _cautions(context),
        _help(context),
        _authors(context, rules),
        _formulas(context),
        *(_rule(context, rule) for rule in rules),
    )


def _page(path: str, title: str, template: str, context: OverviewContext, **values: object) -> Page:
    root = "../" * path.count("/")
    link = addresses.resolver(root)

    def inline(text: str | None) -> Markup:
        return Markup(render_inline(text, link)) if text else Markup("")

    def blocks(text: str | None) -> Markup:
        return Markup(render_blocks(text, link)) if text else Markup("")

    def notes(about: str) -> tuple[Markup, ...]:
        return tuple(inline(note.note) for note in context.shared.site_notes.get(about, ()))

    html = render(
        template,
        root=root,
        title=title,
        shared=context.shared,
        addresses=addresses,
        wording=wording,
        inline=inline,
        blocks=blocks,
        notes=notes,
        listed=lambda digests: context.listed(digests, root),
        **values,
    )
    return Page(path, title, html)


def _listed(digest: Digest, root: str) -> Listed:
    state = DocumentState(digest.state)
    return Listed(
        title=digest.title,
        href=root + addresses.procedure(digest.id),
        summary=digest.summary,
        equipment=digest.equipment,
        state=wording.DOCUMENT[state],
        is_released=state is DocumentState.APPROVED,
    )


def _home(context: OverviewContext) -> Page:
    site = context.shared.site
    counts = _count(digest.family for digest in context.digests)
    return _page(
        addresses.HOME,
        str(site.name) if site else "Home",
        "home.html",
        context,
        site=site,
        contact=context.shared.contacts.get(site.call) if site else None,
        counts=counts,
        families=family_choices(context.shared, context.digests),
        displays=display_choices(context.shared, context.digests),
        signs=Markup(symbol_sheet(signs_of_hazards(context.shared))),
        scripts=[f"kbgen/{path}" for path in ("js/recent.js", *assets.LOADED)],
    )


def _codes(context: OverviewContext) -> Page:
    rows = [(display, len(display.alarms)) for display in context.shared.displays.values()]
    return _page(addresses.CODES, "Alarm codes", "codes.html", context, displays=rows)


def _display(context: OverviewContext, display: Display) -> Page:
    path = addresses.display(display.id)
    using: dict[str, list[Digest]] = {}
    for digest in context.digests:
        for code in digest.codes:
            if code.display == display.id:
                using.setdefault(code.code, []).append(digest)
    root = "../"
    rows = [
        CodeRow(alarm, addresses.code_anchor(alarm.code), context.listed(_once(using.get(alarm.code, [])), root))
        for alarm in display.alarms
    ]
    titles = {digest.id: digest.title for digest in context.digests}
    return _page(path, f"Codes on: {display.name}", "display.html", context, display=display, rows=rows, titles=titles)


def _once(digests: Iterable[Digest]) -> list[Digest]:
    return list({digest.id: digest for digest in digests}.values())


def _equipment(context: OverviewContext) -> Page:
    counts = _count(digest.family for digest in context.digests)
    return _page(addresses.EQUIPMENT, "Equipment", "equipment.html", context, counts=counts)


def _family(context: OverviewContext, family: Family) -> Page:
    mine = [digest for digest in context.digests if digest.family == family.id]
    units = [unit for unit in context.shared.units.values() if unit.family == family.id]
    parts = [part for part in context.shared.parts.values() if family.id in part.fits]
    shown = {"family": family, "mine": mine, "units": units, "parts": parts}
    return _page(addresses.family(family.id), str(family.name), "family.html", context, **shown)


def _tools(context: OverviewContext) -> Page:
    used = _used_by(context.digests, lambda digest: digest.tools)
    rows = [(tool, used.get(tool.id, ())) for tool in _by_name(context.shared.tools)]
    return _page(addresses.TOOLS, "Tools", "tools.html", context, rows=rows)


def _parts(context: OverviewContext) -> Page:
    used = _used_by(context.digests, lambda digest: digest.parts)
    rows = [
        (part, used.get(part.id, ()), _predecessors(part, context.shared)) for part in _by_name(context.shared.parts)
    ]
    return _page(addresses.PARTS, "Spare parts", "parts.html", context, rows=rows)


def _predecessors(part: Part, shared: Shared) -> list[Part]:
    return [one for one in shared.parts.values() if one.replaced_by == part.id]


def _by_name(table: Mapping[str, Item]) -> list[Item]:
    return sorted(table.values(), key=lambda one: (one.name.lower(), one.id))


def _used_by(
    digests: Iterable[Digest], uses: Callable[[Digest], tuple[UsedAt, ...]]
) -> Mapping[str, tuple[UsedBy, ...]]:
    found: dict[str, list[UsedBy]] = {}
    for digest in sorted(digests, key=lambda one: (one.title.lower(), one.id)):
        for use in uses(digest):
            found.setdefault(use.name, []).append(UsedBy(digest.title, addresses.procedure(digest.id), _when(use)))
    return {name: tuple(using) for name, using in found.items()}


def _when(use: UsedAt) -> str:
    if use.always:
        return "always"
    return f"only after {' or '.join(use.branches)}" if use.branches else "on a branch"


def _glossary(context: OverviewContext) -> Page:
    own = [(str(one.term), str(one.meaning), tuple(map(str, one.also))) for one in context.shared.glossary]
    terms = sorted(
        {term.lower(): (term, meaning, also) for term, meaning, also in (*WORDS, *own)}.values(),
        key=lambda t: t[0].lower(),
    )
    letters = [(letter, list(group)) for letter, group in groupby(terms, key=lambda term: term[0][0].upper())]
    return _page(addresses.GLOSSARY, "Glossary", "glossary.html", context, letters=letters)


def _cautions(context: OverviewContext) -> Page:
    return _page(addresses.CAUTIONS, "Cautions", "cautions.html", context)


def _help(context: OverviewContext) -> Page:
    return _page(addresses.HELP, "How to use this site", "help.html", context, legend=Markup(legend_svg()))


def _authors(context: OverviewContext, rules: Sequence[Rule]) -> Page:
    by_state = sorted(context.digests, key=lambda digest: (digest.review_due, digest.id))
    shown = {"rules": rules, "documents": by_state, "assumptions": ASSUMPTIONS}
    return _page(addresses.AUTHORS, "For authors", "authors.html", context, **shown)


def _formulas(context: OverviewContext) -> Page:
    return _page(addresses.FORMULAS, "Formulas", "formulas.html", context, formulas=formula_views())


def _rule(context: OverviewContext, rule: Rule) -> Page:
    return _page(addresses.rule(rule.code), f"{rule.code} {rule.name}", "rule.html", context, rule=rule)


def _count(names: Iterable[str]) -> Mapping[str, int]:
    counts: dict[str, int] = {}
    for name in names:
        counts[name] = counts.get(name, 0) + 1
    return counts
