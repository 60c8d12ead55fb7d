"""Fixtures shared by the tests: the example plans, a lap, a real browser."""

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, sync_playwright

import raisedbody as rb

ROOT = Path(__file__).parents[2]


@pytest.fixture(autouse=True)
def _at_the_root(monkeypatch: pytest.MonkeyPatch) -> None:
    """Examples name their files from the top of the repository."""
    monkeypatch.chdir(ROOT)


@pytest.fixture
def plan() -> rb.Plan:
    """The travelling library."""
    return rb.Plan.read(ROOT / "examples/mobile_library.toml")


@pytest.fixture
def build(plan: rb.Plan) -> rb.Evaluation:
    """The travelling library, evaluated."""
    return plan.evaluate()


@pytest.fixture
def lap() -> rb.Lap:
    """Two sheets of 1.2 mm and a rivet with values of its own, inside the range of EN 1993-1-3."""
    sheet = rb.Sheet(thickness="1.2 mm", fy="250 MPa", fu="360 MPa")
    rivet = rb.BlindRivet("6.4 mm", shear="6 kN", tension="5 kN", head="13.4 mm", hole="6.5 mm")
    return rb.Lap(outer=sheet, inner=sheet, rivet=rivet, pitch="50 mm", edge="9.6 mm")


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """Chromium without a screen; tests that need it are skipped where there is none."""
    names = ("chromium", "chromium-browser", "google-chrome")
    path = next(filter(None, map(shutil.which, names)), None)
    if path is None:
        pytest.skip(f"no browser: none of {', '.join(names)} is on PATH (Debian: apt-get install chromium)")
    with sync_playwright() as playwright:
        # As root, in a container, Chromium has no sandbox to start.
        browser = playwright.chromium.launch(executable_path=path, args=["--no-sandbox"])
        yield browser
        browser.close()
