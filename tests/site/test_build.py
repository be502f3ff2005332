"""The build: same input, same bytes; a failed build loses nothing; hostile texts stay texts."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from html.parser import HTMLParser
from pathlib import Path

import pytest
import yaml
from mkdocs.exceptions import Abort
from mkdocs.structure.files import File, Files

from kbgen.cache import no_cache
from kbgen.cli import main
from kbgen.commands.places import find_folder
from kbgen.examine import examine
from kbgen.pages.page import Page
from kbgen.plugin import KbgenPlugin
from kbgen.site.content import content
from kbgen.site.shell import CONTENT_MARK, TITLE_MARK, Shell
from tests.site.demo import Place, demo_copy, environment, example_copy, tree

HOSTILE = "</p></title><script>document.title='taken'</script><img src=x onerror=alert(1)>"
TEXT_KEYS = ("answer", "title", "name", "text", "tell", "where", "alt", "label", "tag")
BROKEN = ("\nstate: approved", "\nstate: perhaps")


@pytest.fixture
def example(tmp_path: Path) -> Iterator[Place]:
    """The small knowledge base, built once."""
    place = example_copy(tmp_path)
    place.build()
    yield place


def edit(path: Path, old: str, new: str) -> None:
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), encoding="utf-8")


def approve(path: Path) -> None:
    assert main(["approve", "--role", "Maintenance engineer", "--date", "2026-09-20", str(path)]) == 0


def belt_slips(place: Place) -> Path:
    return place.procedures / "conveyors" / "belt-slips.yaml"


def test_two_builds_give_the_same_bytes(demo: Place, tmp_path: Path) -> None:
    with environment(SOURCE_DATE_EPOCH="1790000000", XDG_CACHE_HOME=str(tmp_path / "first")):
        one = demo_copy(tmp_path / "one")
        one.build()
    with environment(SOURCE_DATE_EPOCH="1790000000", XDG_CACHE_HOME=str(tmp_path / "second")):
        two = demo_copy(tmp_path / "two")
        assert two.mkdocs().returncode == 0
    first, second = tree(one.site), tree(two.site)
    assert sorted(first) == sorted(second)
    assert [name for name in first if first[name] != second[name]] == []


def test_a_build_from_the_cache_gives_the_same_bytes(example: Place) -> None:
    before = tree(example.site)
    example.build()
    assert tree(example.site) == before


def test_an_error_leaves_the_old_site(example: Place) -> None:
    before, beside = tree(example.site), example.beside()
    edit(belt_slips(example), *BROKEN)
    with pytest.raises(Abort):
        example.build()
    assert tree(example.site) == before
    assert example.beside() == beside


def test_an_error_through_mkdocs_is_shown_and_leaves_the_old_site(example: Place) -> None:
    before, beside = tree(example.site), example.beside()
    edit(belt_slips(example), *BROKEN)
    run = example.mkdocs()
    assert run.returncode != 0
    line = belt_slips(example).read_text(encoding="utf-8").split("state: perhaps")[0].count("\n") + 1
    assert re.search(rf"belt-slips\.yaml:{line}:\d+", run.stdout + run.stderr)
    assert "KB" in run.stdout + run.stderr
    assert tree(example.site) == before
    assert example.beside() == beside


def test_an_error_of_mkdocs_itself_leaves_the_old_site(example: Place) -> None:
    before, beside = tree(example.site), example.beside()
    edit(example.root / "mkdocs.yml", "theme: {", "hooks: [fails.py]\ntheme: {")
    (example.root / "fails.py").write_text(
        "def on_post_page(output, page, config):\n    raise RuntimeError('no disk')\n"
    )
    assert example.mkdocs().returncode != 0
    assert tree(example.site) == before
    assert example.beside() == beside | {"fails.py"} | ({"__pycache__"} & example.beside())


def test_strict_mode_with_a_warning_leaves_the_old_site(example: Place) -> None:
    before, beside = tree(example.site), example.beside()
    edit(belt_slips(example), "    - {tool: spanner-24}", "    - {tool: spanner-24}\n    - {tool: flashlight}")
    approve(belt_slips(example))
    assert example.mkdocs("--strict").returncode != 0
    assert tree(example.site) == before
    assert example.beside() == beside


def test_a_change_of_one_procedure_changes_only_what_shows_it(example: Place) -> None:
    before = tree(example.site)
    edit(belt_slips(example), "do: Wipe drum and belt dry.", "do: Wipe drum and belt dry and clean.")
    approve(belt_slips(example))
    example.build()
    after = tree(example.site)
    assert sorted(after) == sorted(before)
    assert [name for name in after if after[name] != before[name]] == ["procedure/belt-slips.html"]


def test_a_change_of_a_title_changes_what_names_it(example: Place) -> None:
    before = tree(example.site)
    edit(belt_slips(example), "title: Belt slips on its drive drum", "title: Belt slides on its drive drum")
    approve(belt_slips(example))
    example.build()
    after = tree(example.site)
    named = {
        name
        for name, data in before.items()
        if b"Belt slips on its drive drum" in data and not name.startswith("rule/")
    }
    assert {name for name in after if after[name] != before[name]} == named
    assert "procedure/belt-stands.html" in named


def content_of(place: Place) -> tuple[Page, ...]:
    examined = examine(find_folder(place.procedures), None, no_cache())
    return content(examined, no_cache()).pages


def test_stamped_pages_equal_pages_that_mkdocs_renders(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    place = example_copy(tmp_path)
    place.build()
    wanted = ["procedure/belt-slips.html", "procedure/belt-stands.html", "codes.html"]
    pages = {page.path: page for page in content_of(place) if page.path in wanted}
    rendered: dict[str, str] = {}
    keep, fill = KbgenPlugin.on_post_page, KbgenPlugin.on_page_content
    files = KbgenPlugin.on_files

    def with_wanted(self: KbgenPlugin, files_: Files, config: object) -> Files:
        made = files(self, files_, config)  # type: ignore[arg-type]
        for path in wanted:
            made.append(File.generated(config, path.replace(".html", ".md"), content="# x\n"))  # type: ignore[arg-type]
        return made

    def content_or(self: KbgenPlugin, html: str, page: object, config: object, files: Files) -> str:
        known = pages.get(page.file.dest_uri)  # type: ignore[attr-defined]
        if known is None:
            return fill(self, html, page, config, files)  # type: ignore[arg-type]
        page.title = known.title  # type: ignore[attr-defined]
        return known.html

    def note(self: KbgenPlugin, output: str, page: object, config: object) -> str:
        if page.file.dest_uri in pages:  # type: ignore[attr-defined]
            rendered[page.file.dest_uri] = output  # type: ignore[attr-defined]
        return keep(self, output, page, config)  # type: ignore[arg-type]

    monkeypatch.setattr(KbgenPlugin, "on_files", with_wanted)
    monkeypatch.setattr(KbgenPlugin, "on_page_content", content_or)
    monkeypatch.setattr(KbgenPlugin, "on_post_page", note)
    stamped = {path: (place.site / path).read_text(encoding="utf-8") for path in wanted}
    place.build()
    assert sorted(rendered) == sorted(wanted)
    for path in wanted:
        assert rendered[path] == stamped[path]


class _Tags(HTMLParser):
    """Notes what a browser would act on."""

    def __init__(self) -> None:
        super().__init__()
        self.scripts: list[str | None] = []
        self.handlers: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.handlers += [name for name, _ in attrs if name.startswith("on")]
        if tag == "script":
            self.scripts.append(dict(attrs).get("src"))


def texts_of(node: yaml.Node, key: str = "") -> Iterator[yaml.ScalarNode]:
    """The values of a YAML file that are texts for people, not names or amounts."""
    if isinstance(node, yaml.MappingNode):
        for name, value in node.value:
            yield from texts_of(value, name.value)
    elif isinstance(node, yaml.SequenceNode):
        for value in node.value:
            yield from texts_of(value, key)
    elif (key in TEXT_KEYS or " " in node.value) and not re.match(r"[\d.]+ \w+$", node.value):
        yield node


def make_hostile(path: Path) -> int:
    text = path.read_text(encoding="utf-8")
    nodes = sorted(texts_of(yaml.compose(text, yaml.SafeLoader)), key=lambda node: -node.start_mark.index)
    for node in nodes:
        tail = text[node.end_mark.index :]
        text = (
            text[: node.start_mark.index]
            + json.dumps(node.value + HOSTILE)
            + ("\n" if node.style in ("|", ">") else "")
            + tail
        )
    path.write_text(text, encoding="utf-8")
    return len(nodes)


@pytest.mark.parametrize(
    "name", ["conveyors/belt-slips.yaml", "conveyors/belt-stands.yaml", "tables/conveyors.yaml", "tables/site.yaml"]
)
def test_hostile_texts_never_become_tags(example: Place, name: str) -> None:
    """Even if every check were passed over: texts stay texts."""
    clean = {page.path: _tags(page.html).scripts for page in content_of(example)}
    changed = make_hostile(example.procedures / name)
    made = content_of(example)
    assert changed > 10
    assert sum(page.html.count("&lt;script&gt;document.title") for page in made) >= changed / 2
    for page in made:
        found = _tags(Shell(("<title>", "</title>", ""), (TITLE_MARK, CONTENT_MARK)).around(page))
        assert found.scripts == clean[page.path]
        assert found.handlers == []


def test_a_hostile_text_that_may_be_published_is_shown_as_it_is_written(example: Place) -> None:
    edit(belt_slips(example), "title: Belt slips on its drive drum", f"title: {json.dumps('Belt slips' + HOSTILE)}")
    approve(belt_slips(example))
    before = {path: _tags(data.decode()).scripts for path, data in tree(example.site).items() if path.endswith(".html")}
    example.build()
    for path, scripts in before.items():
        found = _tags((example.site / path).read_text(encoding="utf-8"))
        assert (found.scripts, found.handlers) == (scripts, [])
    assert "<script" not in (example.site / "kbgen" / "search-data.js").read_text(encoding="utf-8")


def _tags(html: str) -> _Tags:
    found = _Tags()
    found.feed(html)
    return found
