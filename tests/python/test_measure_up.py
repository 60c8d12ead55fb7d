"""The measure-up as a shop uses it: a form out, readings in by name, by file or by table, and what they say."""

import json
import math
import pickle
from pathlib import Path

import numpy as np
import pandas as pd
import pint
import polars as pl
import pytest

import raisedbody as rb

RAISE_MM = 400.0


def read(
    form: rb.MeasureUp, rng: np.random.Generator | None = None, forward: float = 0.0, twist: float = 0.0
) -> dict[str, float]:
    """What a tape would read of a roof that walked and twisted by so much, mm."""
    readings = {}
    for row in form.readings.rows():
        mm = row["expected_mm"] if row["kind"] != "gap" else 140 + (RAISE_MM if form.stage != "before cut" else 0)
        place = row["name"].split()[-1]
        if row["kind"] == "plumb along":
            mm += forward
        if row["kind"] in ("height", "gap"):
            side, post = (1 if place[0] == "L" else -1), int(place[1:])
            mm += side / 2 * twist * along(form, post)
        readings[row["name"]] = mm + (rng.normal(0, row["error_mm"]) if rng else 0)
    return readings


def along(form: rb.MeasureUp, post: int) -> float:
    """How far ahead of the middle a post stands, in parts of the length."""
    survey = form.plan.to_dict()["survey"]
    spacing = np.full(survey["windows"], 28 * 25.4)
    for exception in survey["exceptions"]:
        spacing[exception["window"] - 1] = 24 * 25.4
    x = np.concatenate([[0], np.cumsum(spacing)])
    return (x[post - 1] - x[-1] / 2) / x[-1]


def text(readings: dict[str, float]) -> dict[str, str]:
    return {name: f"{mm} mm" for name, mm in readings.items()}


@pytest.fixture
def before(plan: rb.Plan) -> dict[str, str]:
    return text(read(plan.measure_up("before cut")))


@pytest.fixture
def lifted(plan: rb.Plan) -> rb.MeasureUp:
    return plan.measure_up("after lift")


def by_name(square: rb.Squareness) -> pd.DataFrame:
    return pd.DataFrame(square.parameters).set_index("name")


def test_the_form_has_blanks_and_says_what_to_do(plan: rb.Plan) -> None:
    form = plan.measure_up("before cut")
    printed = form.form()
    assert str(form) == printed
    assert "____" in printed
    assert "floor mark L1" in printed
    assert "driver's side" in printed
    assert "before anything is welded" in printed
    assert "nobody goes under a roof" in printed
    html = form._repr_html_()
    assert "diagonal L1-R10" in html
    assert "safe" not in printed.lower()
    rows = list(form.readings.rows())
    assert len(rows) == 111
    assert {row["kind"] for row in rows} >= {"height", "plumb across", "plumb along", "string", "gap", "diagonal"}
    raised = {row["name"]: row["expected_mm"] for row in plan.measure_up("after tacking").readings.rows()}
    heights = [row for row in rows if row["kind"] == "height"]
    assert all(raised[row["name"]] - row["expected_mm"] == pytest.approx(RAISE_MM) for row in heights)
    assert all(math.isnan(row["expected_mm"]) for row in rows if row["kind"] == "gap")
    with pytest.raises(rb.InputError, match="after lift"):
        plan.measure_up("after lifting")


def test_a_walked_and_twisted_roof_is_found(plan: rb.Plan, lifted: rb.MeasureUp) -> None:
    rng = np.random.default_rng(12)
    start = text(read(plan.measure_up("before cut"), rng))
    square = lifted.fit(text(read(lifted, rng, forward=12, twist=6)), before=start)
    found = by_name(square)
    assert found.loc["forward", "low_mm"] < 12 < found.loc["forward", "high_mm"]
    assert found.loc["twist", "low_mm"] < 6 < found.loc["twist", "high_mm"]
    assert found.loc["forward", "standard_mm"] < 1
    assert square.undetermined == ()
    assert square.decision == "no-go"
    assert square.verdict == "fails"
    moves = pd.DataFrame(square.moves).set_index("corner")
    assert (moves["forward_mm"] < -10).all()
    assert moves.loc["front left", "up_mm"] < moves.loc["front right", "up_mm"]
    assert list(dict.fromkeys(square.steps["step"]))[:2] == ["level", "take the twist out"]
    said = str(square)
    assert "weld nothing" in said
    assert "back" in said
    assert "plumb along: fails" in said
    assert "weld nothing" in square._repr_html_()
    assert "1.96 u" in square.explain()
    assert list(pl.DataFrame(square.residuals).columns)[:2] == ["name", "departure_mm"]


def test_the_fit_is_that_of_numpy(plan: rb.Plan, lifted: rb.MeasureUp) -> None:
    rng = np.random.default_rng(3)
    kinds = ("height", "gap")
    start = {n: v for n, v in read(plan.measure_up("before cut"), rng).items() if n.startswith(kinds)}
    after = {n: v for n, v in read(lifted, rng, twist=6).items() if n.startswith(kinds)}
    # Up, pitch, roll, twist and sag from heights alone are linear, but for parts in ten thousand.
    errors = {row["name"]: row["error_mm"] * math.sqrt(2) for row in lifted.readings.rows()}
    rows, departures, weights = [], [], []
    for name in after:
        place = name.split()[-1]
        side, x = (1 if place[0] == "L" else -1) / 2, along(lifted, int(place[1:]))
        rows.append([1, x, side, side * x, -(1 - 4 * x * x)])
        departures.append(after[name] - start[name] - RAISE_MM)
        weights.append(1 / errors[name])
    design, weight = np.array(rows), np.array(weights)
    solution, *_ = np.linalg.lstsq(design * weight[:, None], np.array(departures) * weight, rcond=None)
    covariance = np.linalg.inv(design.T @ (design * weight[:, None] ** 2))
    square = lifted.fit(text(after), before=text(start))
    found = by_name(square).loc[["up", "pitch", "roll", "twist", "sag"]]
    np.testing.assert_allclose(found["value_mm"], solution, atol=2e-3)
    np.testing.assert_allclose(found["standard_mm"], np.sqrt(np.diag(covariance)), rtol=1e-3)
    left = (np.array(departures) - design @ solution) * weight
    assert square.chi_square == pytest.approx(float(left @ left), rel=1e-3)
    assert square.freedoms == len(after) - 5
    assert set(square.undetermined) == {"forward", "left", "yaw", "racking", "spread"}
    assert square.decision == "measure again"


def test_readings_come_back_by_file(plan: rb.Plan, lifted: rb.MeasureUp, tmp_path: Path) -> None:
    files = {}
    for form in (plan.measure_up("before cut"), lifted):
        path = tmp_path / f"{form.stage}.csv"
        form.write(path)
        with pytest.raises(FileExistsError):
            form.write(path)
        frame = pd.read_csv(path, dtype=str)
        taken = read(form, forward=12 if form is lifted else 0)
        frame["reading"] = [f"{taken[name]:.3f}" for name in frame["name"]]
        frame["unit"] = "mm"
        frame.loc[frame["name"] == "height L1", "reading"] = f"{taken['height L1'] / 25.4:.6f} in"
        frame.loc[frame["name"] == "height L2", "reading"] = ""
        frame.to_csv(path, index=False, sep=";")
        files[form.stage] = path
    square = lifted.fit(files["after lift"], before=str(files["before cut"]))
    assert by_name(square).loc["forward", "value_mm"] == pytest.approx(12, abs=0.01)
    table = lifted.read(files["after lift"])
    assert list(table) == ["name", "reading_mm"]
    assert table.height == 110
    start = plan.measure_up("before cut").read(files["before cut"])
    assert lifted.fit(table, before=start) == square
    with pytest.raises(rb.InputError, match="before cut"):
        lifted.fit(files["before cut"], before=files["before cut"])
    with pytest.raises(FileNotFoundError):
        lifted.read(tmp_path / "none.csv")
    for ending in ("html", "txt"):
        lifted.write(tmp_path / f"form.{ending}")
        assert "gap R10" in (tmp_path / f"form.{ending}").read_text(encoding="utf-8")
    with pytest.raises(rb.InputError, match=r"\.csv"):
        lifted.write(tmp_path / "form.pdf")


def test_readings_come_back_by_table(lifted: rb.MeasureUp, before: dict[str, str]) -> None:
    after = read(lifted, forward=3)
    names, mm = list(after), list(after.values())
    want = lifted.fit(text(after), before=before)
    unit = pint.UnitRegistry()
    with_blanks = {"name": [*names, "height L1"], "reading": [*(f"{v} mm" for v in mm), None]}
    tables = [
        pd.DataFrame({"name": names, "reading": mm, "unit": "mm"}),
        pd.DataFrame({"name": names, "reading_mm": mm}),
        pl.DataFrame({"name": names, "reading_mm": mm}),
        with_blanks,
        {name: value * unit.mm for name, value in after.items()},
        {**text(after), "height L1": text(after)["height L1"]},
    ]
    for table in tables:
        assert by_name(lifted.fit(table, before=before)).equals(by_name(want))
    with pytest.raises(rb.QuantityError, match="no unit"):
        lifted.fit(pd.DataFrame({"name": names, "reading": mm}), before=before)
    with pytest.raises(rb.InputError, match="reading_mm"):
        lifted.fit(pd.DataFrame({"name": names}), before=before)
    with pytest.raises(TypeError, match="path of a file"):
        lifted.fit(3.5, before=before)


def test_problems_are_told_all_at_once(lifted: rb.MeasureUp, before: dict[str, str], tmp_path: Path) -> None:
    after = text(read(lifted))
    with pytest.raises(rb.QuantityError) as caught:
        lifted.fit(after | {"height L1": 1990, "height L2": "1990"}, before=before)
    assert [p.field for p in caught.value.problems] == ["readings.height L1", "readings.height L2"]
    with pytest.raises(rb.InputError, match="height L1"):
        lifted.fit(after | {"hight L1": "1990 mm"}, before=before)
    with pytest.raises(rb.InputError) as caught:
        lifted.fit(after, before=before | {"hight L1": "1590 mm"})
    assert caught.value.field == "before.hight L1"
    path = tmp_path / "spoilt.csv"
    path.write_text("name,reading,unit\nheight L1,a lot,mm\nheight L2,12,mm\nheight L2,12,mm\nhigh L3,1,mm\n")
    with pytest.raises(rb.InputError) as caught:
        lifted.read(path)
    assert [(p.field, p.line) for p in caught.value.problems] == [
        ("readings.height L1", 2),
        ("readings.height L2", 4),
        ("readings.high L3", 5),
    ]
    path.write_text("reading,height\n1,2\n")
    with pytest.raises(rb.InputError, match="column name"):
        lifted.read(path)


def test_contradictions_are_refused_and_named(lifted: rb.MeasureUp, before: dict[str, str]) -> None:
    after = read(lifted, forward=12)
    spoilt = text(after | {"height R4": after["height R4"] + 25})
    with pytest.raises(rb.InputError, match="take it again") as caught:
        lifted.fit(spoilt, before=before)
    assert caught.value.field == "readings.height R4"
    with pytest.raises(rb.InputError, match="another unit") as caught:
        lifted.fit(text(after | {"height R4": after["height R4"] / 25.4}), before=before)


def test_few_readings_say_what_they_do_not_tell(lifted: rb.MeasureUp, before: dict[str, str]) -> None:
    after = {n: v for n, v in text(read(lifted)).items() if n.startswith("plumb along")}
    square = lifted.fit(after, before=before)
    assert "forward" not in square.undetermined
    assert {"left", "up", "yaw", "racking"} <= set(square.undetermined)
    assert square.decision == "measure again"
    assert "not determined" in str(square)
    assert math.isnan(by_name(square).loc["up", "value_mm"])
    assert set(square.unused["reason"]) == {"not read after lift"}


def test_the_plan_says_how_square_and_how_closely(plan: rb.Plan, before: dict[str, str]) -> None:
    fewer = plan.replace(measure_up={"posts": [1, 5, 10], "height_tolerance": "1/4 in"})
    form = fewer.measure_up("after tacking")
    assert form.readings.height == 3 * 2 * 5 + 2 + 3 + 6
    assert form.height_tolerance_mm == pytest.approx(6.35)
    assert form.plumb_tolerance_mm == 6
    assert set(form.assumed["field"]) == {"measure_up.errors.string", "measure_up.errors.string_setting"}
    assert "measure_up.errors.string" in set(plan.evaluate().assumed["field"])
    bare = rb.Plan.read("examples/workshop_bus.toml")
    lifted = bare.measure_up("after lift")
    assert lifted.height_tolerance_mm is None
    start = {n: f"{mm} mm" for n, mm in read_any(bare.measure_up("before cut")).items()}
    after = {n: f"{mm} mm" for n, mm in read_any(lifted).items()}
    square = lifted.fit(after, before=start)
    assert square.decision == "measure again"
    assert "measure_up.tolerance" in square.checks["reason"][0]
    for posts, field in (([1, 1], "posts[1]"), ([11, 2], "posts[0]"), ([3], "posts[1]")):
        with pytest.raises(rb.InputError) as caught:
            plan.replace(measure_up={"posts": posts})
        assert caught.value.field == f"measure_up.{field}"
    with pytest.raises(rb.InputError, match="out of range"):
        plan.replace(measure_up={"tolerance": "0 mm"})


def read_any(form: rb.MeasureUp) -> dict[str, float]:
    return {row["name"]: row["expected_mm"] for row in form.readings.rows() if row["kind"] != "gap"}


def test_measure_ups_are_values(lifted: rb.MeasureUp, before: dict[str, str]) -> None:
    square = lifted.fit(text(read(lifted, forward=2)), before=before)
    for value in (lifted, square):
        assert pickle.loads(pickle.dumps(value)) == value
        assert json.loads(json.dumps(value.to_dict()))
        assert " object at 0x" not in repr(value)
        with pytest.raises(AttributeError):
            value.stage = "before cut"  # type: ignore[misc]
    assert square.measure_up == lifted
    assert repr(square) == "<Squareness after lift: go>"
    assert square.to_dict()["parameters"][0]["name"] == "forward"
