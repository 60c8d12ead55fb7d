"""Fixtures shared by the tests: the example plans and a lap."""

from pathlib import Path

import pytest

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
