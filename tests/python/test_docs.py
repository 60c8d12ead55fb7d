"""The documentation site names everything public, once, and its course leads from chapter to chapter."""

import importlib.util
import json
import re
from pathlib import Path
from types import ModuleType

import pytest

import raisedbody as rb

ROOT = Path(__file__).parents[2]
CHAPTERS = sorted(ROOT.glob("notebooks/*.ipynb"))


def test_the_reference_has_every_public_name_once() -> None:
    pages = "".join(page.read_text() for page in sorted(ROOT.glob("docs/api/*.rst")))
    named = re.findall(r"^\.\. auto(?:class|function|data):: (\w+)$", pages, re.MULTILINE)
    modules = re.findall(r"^\.\. automodule:: raisedbody\.(\w+)$", pages, re.MULTILINE)
    assert len(named) == len(set(named))
    assert len(modules) == len(set(modules))
    inside = {name for module in modules for name in getattr(rb, module).__all__}
    assert set(named) | set(modules) | (inside & set(rb.__all__)) == set(rb.__all__)


def test_every_page_of_the_reference_is_in_its_contents() -> None:
    contents = (ROOT / "docs/api/index.md").read_text()
    for page in ROOT.glob("docs/api/*.rst"):
        assert re.search(rf"^{page.stem}$", contents, re.MULTILINE), page.stem


@pytest.mark.parametrize("number", range(1, len(CHAPTERS) + 1))
def test_a_chapter_says_what_it_teaches_and_leads_on(number: int) -> None:
    cells = json.loads(CHAPTERS[number - 1].read_text())["cells"]
    first, last = ("".join(cell["source"]) for cell in (cells[0], cells[-1]))
    assert first.startswith(f"# {number}. ")
    assert "**What you learn:** " in first
    assert "**What it needs:** " in first
    following = CHAPTERS[number % len(CHAPTERS)].name
    assert f"]({following})" in last
    assert all(not cell.get("outputs") and cell.get("execution_count") is None for cell in cells)
    title = first.splitlines()[0].removeprefix("# ").replace(". ", " ", 1)
    assert f"[{title}](../notebooks/{CHAPTERS[number - 1].name})" in (ROOT / "docs/handbook.md").read_text()


@pytest.fixture
def offline() -> ModuleType:
    spec = importlib.util.spec_from_file_location("offline", ROOT / "docs/offline.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


@pytest.mark.parametrize(
    "loads",
    [
        '<script src="https://example.org/a.js"></script>',
        '<link rel="stylesheet" href="//example.org/a.css">',
        '<img srcset="HTTP://example.org/a.png">',
        '<svg><image xlink:href="https://example.org/a.png"/></svg>',
        "<style>@import 'https://example.org/a.css';</style>",
        '<p style="background: url(https://example.org/a.png)">',
    ],
)
def test_a_page_that_would_ask_another_host_is_found(offline: ModuleType, tmp_path: Path, loads: str) -> None:
    (tmp_path / "page.html").write_text(f"<p>{loads}</p>")
    assert len(offline.outside(tmp_path)) == 1


def test_links_that_a_reader_follows_are_no_requests(offline: ModuleType, tmp_path: Path) -> None:
    (tmp_path / "page.html").write_text('<a href="https://example.org">out</a> <img src="data:image/png;base64,AA==">')
    (tmp_path / "page.css").write_text("p { background: url(data:image/png;base64,AA==) }")
    assert offline.outside(tmp_path) == []
