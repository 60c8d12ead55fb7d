"""The roof off its posts, as a planner works with it."""

import json
import pickle
from typing import Any

import numpy as np
import pytest

import raisedbody as rb


@pytest.fixture
def lift(build: rb.Evaluation) -> rb.Lift:
    assert build.lift is not None
    return build.lift


def check(build: rb.Evaluation, name: str) -> dict[str, Any]:
    return next(row for row in build.checks.rows() if row["name"] == name)


def test_supports_carry_the_roof(lift: rb.Lift) -> None:
    assert lift.weight_n == pytest.approx(lift.roof_mass_kg * 9.80665)
    supports = lift.supports
    assert supports["even_n"].sum() == pytest.approx(lift.weight_n)
    moment = (supports["even_n"] * (supports["x_mm"] - lift.centre_mm[0])).sum()
    assert moment == pytest.approx(0, abs=1e-3 * lift.weight_n)
    assert (supports["greatest_n"] >= supports["even_n"]).all()
    assert (supports["greatest_n"] >= supports["lag_n"] - 1e-6).all()
    assert lift.tipping_margin_mm == pytest.approx(850)


def test_steps_and_braces(lift: rb.Lift) -> None:
    steps, braces = lift.steps, lift.braces
    assert steps["rise_mm"].tolist() == [0, 100, 200, 300, 400]
    assert lift.stop_wind_m_s == steps["stop_wind_m_s"].min()
    assert lift.stopped_at_mm in steps["rise_mm"]
    assert lift.stopped_by in set(steps["stopped_by"])
    assert (steps["leaning_factor"] > lift.factor).all()
    left = braces["name"] == "bar left"
    # 1400 mm along, 40 mm across, 850 mm up at rest and so much more at each step
    level = np.hypot(1400, 40)
    np.testing.assert_allclose(braces["length_mm"][left], np.hypot(level, 850 + steps["rise_mm"]))
    np.testing.assert_allclose(braces["angle_deg"][left], np.degrees(np.arctan2(850 + steps["rise_mm"], level)))
    assert (braces["tension_n"] <= braces["tension_capacity_n"]).all()
    straps = braces["compression_capacity_n"] == 0
    assert straps.any()
    assert (braces["compression_n"][straps] == 0).all()


def test_the_planners_wind_governs_where_it_is_lower(plan: rb.Plan, lift: rb.Lift) -> None:
    assert (lift.planned_wind_m_s, lift.governing_wind_m_s, lift.forces_wind_m_s) == (6, 6, 6)
    worse = plan.replace(lift={"wind": "15 m/s"}).evaluate()
    assert worse.lift is not None
    assert worse.lift.governing_wind_m_s == worse.lift.stop_wind_m_s == lift.stop_wind_m_s
    assert check(worse, "roof off: stop-work wind")["verdict"] == "fails"


@pytest.mark.parametrize(
    ("kept", "lacks"), [("strap", "fore and aft"), ("bar", "across"), ("none of them", "fore and aft and across")]
)
def test_without_diagonals_both_ways_there_is_no_number(plan: rb.Plan, kept: str, lacks: str) -> None:
    braces = [b for b in plan.to_dict()["lift"]["braces"] if b["name"].startswith(kept)]
    build = plan.replace(lift={"braces": braces}).evaluate()
    assert build.lift is not None
    assert lacks in build.lift.refusals[0]
    assert build.lift.stop_wind_m_s is None
    assert len(build.lift.steps["rise_mm"]) == 0
    assert check(build, "roof off its posts")["verdict"] == "outside the rule's range"
    assert "refused" in repr(build.lift)
    assert "stop-work wind: refused" in str(build)


def test_fewer_than_three_supports(plan: rb.Plan) -> None:
    build = plan.replace(lift={"supports": plan.to_dict()["lift"]["supports"][:2]}).evaluate()
    assert build.lift is not None
    assert "fewer than three" in build.lift.refusals[0]


def test_a_plan_without_a_lift() -> None:
    build = rb.Plan.read("examples/workshop_bus.toml").evaluate()
    assert build.lift is None
    assert build.to_dict()["lift"] is None
    row = check(build, "roof off its posts")
    assert row["verdict"] == "not assessed"
    assert "[lift]" in row["reason"]


def test_values_keep(lift: rb.Lift, build: rb.Evaluation) -> None:
    assert pickle.loads(pickle.dumps(lift)) == lift
    plain = lift.to_dict()
    assert json.loads(json.dumps(plain))["supports"][0]["name"] == "crib rear left"
    assert build.to_dict()["lift"] == plain
    assert repr(lift) == f"<Lift on 6 supports: work stops at {lift.stop_wind_m_s} m/s>"
    assert "both end caps" in lift.counted
    assert "hung anew at each step" in build._repr_html_()
