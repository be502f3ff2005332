import re
from pathlib import Path

from kbgen.search.assets import SCRIPTS, STYLE

TEMPLATES = Path(__file__).parents[2] / "site_templates"


def test_every_script_of_the_search_is_loaded_and_there() -> None:
    own = {path.relative_to(TEMPLATES).as_posix() for path in (TEMPLATES / "js" / "search").glob("*.js")}
    assert own == {name for name in SCRIPTS if name.startswith("js/")}
    assert all((TEMPLATES / name).is_file() for name in (*SCRIPTS, STYLE))


def test_a_script_comes_after_those_it_uses() -> None:
    for place, name in enumerate(SCRIPTS):
        text = (TEMPLATES / name).read_text(encoding="utf-8")
        later = {Path(other).stem for other in SCRIPTS[place + 1 :]}
        assert not later & set(re.findall(r"\bsearch\.(\w+)", text))


def test_scripts_make_no_request_and_write_no_markup() -> None:
    for name in SCRIPTS:
        text = (TEMPLATES / name).read_text(encoding="utf-8")
        assert not re.search(
            r"innerHTML|outerHTML|insertAdjacentHTML|document\.write|fetch\(|XMLHttpRequest|import\(", text
        )
