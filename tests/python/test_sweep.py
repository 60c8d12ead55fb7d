"""Sweeps over a plan and choices among their combinations."""

import itertools
import sys

import numpy as np
import pytest

import raisedbody as rb


@pytest.fixture(scope="module")
def plan() -> rb.Plan:
    return rb.Plan.read("examples/workshop_bus.toml")


@pytest.fixture(scope="module")
def sweep(plan: rb.Plan) -> rb.Sweep:
    return plan.sweep({"skin.gauge": [16, 18, 20], "fastening.pitch": ["3 in", "4 in", "1 mm"]})


def test_a_row_for_each_combination(plan: rb.Plan, sweep: rb.Sweep) -> None:
    table = sweep.table
    assert sweep.axes == ("skin.gauge", "fastening.pitch")
    assert sweep.shape == (3, 3)
    assert len(sweep) == len(table["row"]) == 9
    pairs = list(zip(table["skin.gauge"].tolist(), table["fastening.pitch"].tolist(), strict=True))
    assert pairs == list(itertools.product(["16", "18", "20"], ["3 in", "4 in", "1 mm"]))
    assert set(sweep.names) <= set(table)
    # Lighter gauge, lighter skin; the rivets do not follow the gauge.
    mass = table["skin_mass_kg"].reshape(sweep.shape)
    assert (np.diff(mass[:, :2], axis=0) < 0).all()
    compared = rb.compare({"own": sweep.plan(4)}).table
    assert compared["skin_mass_kg"][0] == mass[1, 1]


def test_what_cannot_be_says_why(sweep: rb.Sweep) -> None:
    table = sweep.table
    bad = table["fastening.pitch"] == "1 mm"
    assert np.isnan(table["skin_mass_kg"][bad]).all()
    assert all("fastening.pitch: 1 mm is out of range" in error for error in table["error"][bad])
    assert (table["error"][~bad] == "").all()
    with pytest.raises(rb.InputError, match=r"fastening\.pitch"):
        sweep.plan(2)
    with pytest.raises(rb.InputError, match="0 to 8"):
        sweep.plan(9)


def test_as_plain_values(sweep: rb.Sweep) -> None:
    rows = sweep.to_dict()["rows"]
    assert rows[2]["skin_mass_kg"] is None
    assert rows[0]["skin.gauge"] == "16"
    assert "9 combinations of skin.gauge (3) x fastening.pitch (3); 3 cannot be" in repr(sweep)
    assert sweep == sweep


@pytest.mark.parametrize(
    ("axes", "error", "words"),
    [
        ({}, rb.InputError, "name at least one entry"),
        ({"skin.gage": [16]}, rb.InputError, "did you mean"),
        ({"skin.gauge": []}, rb.InputError, "at least one value"),
        ({"skin.gauge": [16, 16]}, rb.InputError, "given twice"),
        ({"skin.gauge": "16"}, TypeError, "a list is asked for"),
        ({"skin.gauge": [object()]}, TypeError, "skin.gauge"),
        ([("skin.gauge", [16])], TypeError, "Mapping"),
    ],
)
def test_what_cannot_be_swept(plan: rb.Plan, axes: object, error: type[Exception], words: str) -> None:
    with pytest.raises(error, match=words):
        plan.sweep(axes)  # type: ignore[arg-type]


def test_progress_is_told(plan: rb.Plan) -> None:
    told: list[tuple[int, int]] = []
    pitches = [f"{50 + i / 20} mm" for i in range(1100)]
    plan.sweep({"fastening.pitch": pitches}, progress=lambda done, of: told.append((done, of)))
    assert told[0] == (0, 1100)
    assert told[-1] == (1100, 1100)
    assert len(told) > 2


def test_it_can_be_interrupted(plan: rb.Plan) -> None:
    def enough(done: int, of: int) -> None:
        raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        plan.sweep({"skin.gauge": [16, 18]}, progress=enough)


def test_a_short_one_shows_nothing(plan: rb.Plan, capsys: pytest.CaptureFixture[str]) -> None:
    plan.sweep({"skin.gauge": [16, 18]}, progress=True)
    plan.sweep({"skin.gauge": [16, 18]}, progress=False)
    assert capsys.readouterr() == ("", "")
    with pytest.raises(TypeError, match="True, False or a callable"):
        plan.sweep({"skin.gauge": [16]}, progress="yes")  # type: ignore[arg-type]
    assert sys.stderr is not None


def test_a_choice(sweep: rb.Sweep) -> None:
    choice = sweep.choose(minimise=["skin_mass_kg", "rivets_count"], limits={"sheet_thickness_mm": (1.1, None)})
    # The widest spacing of the thinnest sheet within the limit beats all else.
    assert len(choice) == 1
    assert choice.table["skin.gauge"].tolist() == ["18"]
    assert choice.table["fastening.pitch"].tolist() == ["4 in"]
    assert choice.left_out == {"beaten": 3, "not known": 0, "cannot be": 3, "not sheet_thickness_mm ≥ 1.1": 2}
    assert choice.sweep == sweep
    assert choice.plan(0).to_dict()["skin"]["gauge"] == 18
    stops = choice.stops
    assert stops["option"].tolist() == [choice.table["row"][0]] * 3
    assert "skin.gauge 20 would beat it, but for sheet_thickness_mm" in stops["words"][2]
    assert "1 options" in repr(choice)
    assert "<table>" in choice._repr_html_()
    assert choice.to_dict()["options"][0]["skin.gauge"] == "18"


def test_the_front_of_two_numbers(sweep: rb.Sweep) -> None:
    choice = sweep.choose(minimise=["skin_mass_kg"], maximise=["sheet_thickness_mm"])
    table = choice.table
    # Six combinations in three pairs that weigh the same: none is beaten.
    assert len(choice) == 6
    assert (np.diff(table["skin_mass_kg"]) >= 0).all()
    # The lightest has nothing lighter; a thicker one costs mass.
    assert choice.stops["words"][0].startswith("skin_mass_kg: none")
    assert "sheet_thickness_mm 1.3106 for 1.0058" in choice.stops["words"][1]
    assert "costs skin_mass_kg" in choice.stops["words"][1]


@pytest.mark.parametrize(
    ("asked", "error", "words"),
    [
        ({}, rb.InputError, "1 to 8 numbers"),
        ({"minimise": ["mass"]}, rb.InputError, "unknown number"),
        ({"minimise": "skin_mass_kg"}, TypeError, "a list is asked for"),
        ({"minimise": ["skin_mass_kg"], "limits": {"labour_h": 3}}, TypeError, "a pair of least and most"),
        ({"minimise": ["skin_mass_kg"], "limits": {"labour_h": (None, None)}}, rb.InputError, "its least or its most"),
    ],
)
def test_what_cannot_be_chosen(sweep: rb.Sweep, asked: dict[str, object], error: type[Exception], words: str) -> None:
    with pytest.raises(error, match=words):
        sweep.choose(**asked)  # type: ignore[arg-type]


def test_no_option_is_left(sweep: rb.Sweep) -> None:
    choice = sweep.choose(minimise=["skin_mass_kg"], limits={"skin_mass_kg": (None, 1)})
    assert len(choice) == 0
    with pytest.raises(rb.InputError, match="no combination keeps every limit"):
        choice.plan(0)
