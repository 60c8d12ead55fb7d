"""The job packet in a real browser: nothing goes wrong, is asked for, runs, or is cut off."""

from collections.abc import Iterator
from pathlib import Path

import pypdfium2
import pytest
from playwright.sync_api import Browser, Page

import raisedbody as rb

EXAMPLES = ("mobile_library", "workshop_bus")

# Each would set the title, open a dialog or ask for a file, were it taken for markup.
HOSTILE = (
    "\"'></td></table><script>document.title='ran'; window.ran=1; alert(1)</script>"
    "<img src='https://example.org/x.png' onerror=\"window.ran=2; alert(2)\">"
    "<svg onload='window.ran=3'><a href='javascript:window.ran=4'>x</a></svg>"
    "<style>@import 'https://example.org/x.css';</style><iframe src='https://example.org'></iframe><!-- ]]>"
)


class Watched:
    """A page, and all that it does besides showing itself."""

    def __init__(self, page: Page) -> None:
        self.page = page
        self.requests: list[str] = []
        self.told: list[str] = []
        page.on("request", lambda request: self.requests.append(request.url))
        page.on("console", lambda message: self.told.append(message.text))
        page.on("pageerror", lambda error: self.told.append(str(error)))
        page.on("dialog", lambda dialog: (self.told.append(dialog.message), dialog.dismiss()))


@pytest.fixture
def watched(browser: Browser) -> Iterator[Watched]:
    page = browser.new_page()
    yield Watched(page)
    page.close()


def opened(watched: Watched, build: rb.Evaluation, folder: Path) -> str:
    path = folder / "packet.html"
    build.packet().write(path)
    watched.page.goto(path.as_uri())
    return path.as_uri()


def outside(watched: Watched, own: str) -> list[str]:
    """What was asked for besides the file and the pictures that it holds."""
    return [url for url in watched.requests if url != own and not url.startswith("data:image/svg+xml")]


@pytest.mark.parametrize("name", EXAMPLES)
def test_the_packet_stands_alone(watched: Watched, tmp_path: Path, name: str) -> None:
    own = opened(watched, rb.Plan.read(f"examples/{name}.toml").evaluate(), tmp_path)
    assert watched.told == []
    assert watched.requests.count(own) == 1
    assert outside(watched, own) == []
    assert watched.page.title().startswith("Job packet: ")
    # Every picture is shown, and every link of the contents leads somewhere.
    assert watched.page.evaluate("[...document.images].every(i => i.complete && i.naturalWidth > 0)")
    assert watched.page.evaluate("document.images.length") >= 2
    lost = "[...document.querySelectorAll('nav a')].filter(a => !document.querySelector(a.getAttribute('href'))).length"
    assert watched.page.evaluate(lost) == 0


def spoilt(value: object, path: str = "") -> object:
    """A plan's entries with hostile text after every text that a planner is free in."""
    key = path.rpartition(".")[2]
    free = ("name", "note", "notes", "supplier", "cut_to_size_by", "provenance")
    quoted = ("quote.to", "quote.from", "quote.number", "quote.excluded", "quote.terms")
    # Lines of a quote are named again where their odds are told.
    if path in ("odds", "prices.trades"):
        return value
    if isinstance(value, dict):
        return {own: spoilt(entry, f"{path}.{own}".lstrip(".")) for own, entry in value.items()}
    if isinstance(value, list):
        return [spoilt(entry, path) for entry in value]
    return f"{value}{HOSTILE}" if isinstance(value, str) and (key in free or path in quoted) else value


def test_a_hostile_plan_runs_nothing(watched: Watched, plan: rb.Plan, tmp_path: Path) -> None:
    hostile = plan.replace(spoilt(plan.to_dict()))
    assert hostile.name.endswith("<!-- ]]>")
    own = opened(watched, hostile.evaluate(), tmp_path)
    assert watched.told == []
    assert outside(watched, own) == []
    assert watched.page.evaluate("window.ran") is None
    assert watched.page.title() == f"Job packet: {hostile.name}"
    assert watched.page.evaluate("document.querySelectorAll('script, iframe, svg, [onerror], [onload]').length") == 0
    # It is told as it was written.
    assert f"crib rear left{HOSTILE}" in watched.page.inner_text("body")


def test_were_a_script_in_the_page_it_would_not_run(watched: Watched, build: rb.Evaluation, tmp_path: Path) -> None:
    page = build.packet().html.replace("<h1>", "<script>window.ran=1</script><h1>")
    path = tmp_path / "packet.html"
    rb.Page("spoilt", page).write(path)
    watched.page.goto(path.as_uri())
    assert watched.page.evaluate("window.ran") is None
    assert any("Content Security Policy" in line for line in watched.told)


@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize("name", EXAMPLES)
def test_the_packet_prints(watched: Watched, tmp_path: Path, name: str, paper: str) -> None:
    opened(watched, rb.Plan.read(f"examples/{name}.toml").evaluate(), tmp_path)
    path = tmp_path / "packet.pdf"
    watched.page.pdf(path=path, format=paper)
    pages = pypdfium2.PdfDocument(path)
    width, height = {"A4": (595.3, 841.9), "Letter": (612.0, 792.0)}[paper]
    assert len(pages) > 20
    for number, page in enumerate(pages, 1):
        assert page.get_size() == pytest.approx((width, height), abs=1.0)
        words = page.get_textpage()
        boxes = [words.get_rect(i) for i in range(words.count_rects())]
        assert len(boxes) > 3, f"page {number} is all but empty"
        # The margins are 12 mm; nothing written reaches into them, nor beyond. The box of a letter, as the reader of
        # the PDF tells it, is larger than what is inked: by 1 point where a page was rendered, its ink 33.7 points in.
        margin = 11.5 / 25.4 * 72
        for left, bottom, right, top in boxes:
            assert margin <= left < right <= width - margin, f"page {number}: {left} to {right} of {width}"
            assert 0 <= bottom < top <= height, f"page {number}: {bottom} to {top} of {height}"


def test_heads_of_tables_are_repeated(watched: Watched, build: rb.Evaluation, tmp_path: Path) -> None:
    opened(watched, build, tmp_path)
    path = tmp_path / "packet.pdf"
    watched.page.pdf(path=path, format="A4")
    texts = [page.get_textpage().get_text_bounded() for page in pypdfium2.PdfDocument(path)]
    of_checks = [text for text in texts if "outside" in text and "needs a drill" in text]
    assert len(of_checks) >= 2
    assert all("verdict" in text and "capacity" in text for text in of_checks[:2])
