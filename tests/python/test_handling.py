"""Weighing, stability on springs, crosswind, running cost and reminders as a user meets them."""

import math
import pickle

import pandas as pd
import polars as pl
import pytest

import raisedbody as rb

COLUMNS = [
    "name",
    "unit",
    "before_low",
    "before_high",
    "after_low",
    "after_high",
    "change_low",
    "change_high",
    "standing",
    "note",
]


def rows(build: rb.Evaluation) -> dict[str, dict[str, object]]:
    return {row["name"]: row for row in build.to_dict()["effects"]}


def test_effects_are_a_table_before_and_after(build: rb.Evaluation) -> None:
    table = build.effects
    assert list(table) == COLUMNS
    frame = pd.DataFrame(table).set_index("name")
    assert frame.loc["unloaded mass", "change_low"] == pytest.approx(build.mass.after_kg - build.mass.before_kg)
    assert frame.loc["overall height", "after_high"] == pytest.approx(build.overall_height_mm)
    assert (frame["before_low"] <= frame["before_high"]).all()
    assert frame.loc["rollover threshold", "after_low"] < frame.loc["rollover threshold", "before_low"]
    assert frame.loc["drag", "unit"] == "N"
    assert pl.DataFrame(table).height == table.height
    assert "fuel against drag" in str(build)
    assert "fuel against drag" in build._repr_html_()


def test_mass_knows_springs_and_fit_out(build: rb.Evaluation) -> None:
    mass = build.mass
    low, high = mass.rollover_threshold_after_g
    assert high < low < mass.rollover_threshold_before_g[0]
    assert low < mass.stability_factor_after[0]
    assert mass.roll_rate_after_deg_g[0] > mass.roll_rate_before_deg_g[0]
    assert mass.fit_out_over_skin == pytest.approx(mass.fit_out_kg / mass.skin_kg)
    assert mass.cg_offset_after_mm > 0
    assert "times the new skin" in rows(build)["unloaded mass"]["note"]
    assert pickle.loads(pickle.dumps(mass)) == mass
    assert mass.to_dict()["rollover_threshold_after_g"] == (low, high)


def test_without_springs_nothing_is_made_up() -> None:
    build = rb.Plan.read("examples/workshop_bus.toml").evaluate()
    assert build.mass.rollover_threshold_after_g is None
    assert build.mass.roll_rate_before_deg_g is None
    table = build.effects
    threshold = list(table["name"]).index("rollover threshold")
    assert math.isnan(table["after_low"][threshold])
    assert "roll_stiffness" in rows(build)["rollover threshold"]["note"]
    assert rows(build)["rollover threshold"]["after_low"] is None


def test_a_weighing_narrows_the_range(plan: rb.Plan) -> None:
    lift = {
        "raised": "front",
        "lift": "800 mm",
        "low_axle_load": "4595 kg",
        "wheel_radius": "480 mm",
        "scale_error": "2 kg",
    }
    assumed = plan.evaluate().mass.cg_height_before_mm
    weighed = plan.replace(vehicle={"weighing": {"axle_lift": lift}}).evaluate()
    low, high = weighed.mass.cg_height_before_mm
    assert assumed == (1000.0, 1300.0)
    assert low < 1154.9 < high
    assert high - low < 50
    assert "4.7 mm" in rows(weighed)["centre of gravity, height"]["note"]
    tilted = plan.replace(vehicle={"weighing": {"tilt_angle": "40 deg"}}).evaluate()
    assert tilted.mass.tilt_before_deg == pytest.approx((40, 40))


def test_impossible_weighings_are_told(plan: rb.Plan) -> None:
    lift = {"raised": "front", "lift": "800 mm", "low_axle_load": "3000 kg", "wheel_radius": "480 mm"}
    with pytest.raises(rb.InputError, match="exchanged") as caught:
        plan.replace(vehicle={"weighing": {"axle_lift": lift}})
    assert caught.value.problems[0].field == "vehicle.weighing.axle_lift.low_axle_load"
    with pytest.raises(rb.InputError, match="leave one of them out"):
        plan.replace(vehicle={"cg_height": "1.1 m", "weighing": {"tilt_angle": "40 deg"}})
    with pytest.raises(rb.InputError, match="does not stand upright"):
        plan.replace(vehicle={"roll_stiffness": "21 kNm/rad"})


def test_drag_can_be_the_users_own(plan: rb.Plan) -> None:
    own = plan.replace(service={"drag": "0.6", "cruise_speed": "65 mph"})
    drag = rows(own.evaluate())["drag"]
    assert drag["before_low"] == drag["before_high"]
    faster = rows(own.replace(service={"cruise_speed": "130 mph"}).evaluate())
    assert faster["drag"]["change_low"] == pytest.approx(4 * drag["change_low"])
    power = rows(own.evaluate())["power against drag"]
    assert faster["power against drag"]["change_low"] == pytest.approx(8 * power["change_low"])
    assert "service.drag" not in set(own.evaluate().assumed["field"])
    assert "service.drag" in set(plan.evaluate().assumed["field"])


def test_reminders_follow_the_places(plan: rb.Plan) -> None:
    reminders = pd.DataFrame(plan.evaluate().reminders)
    assert list(reminders.columns) == ["about", "text", "standing", "source"]
    assert "alterer's label" in set(reminders["about"])
    british = plan.replace(service={"places": ["GB"]}).evaluate()
    assert "alterer's label" not in set(british.reminders["about"])
    assert "in-cab height notice" in set(british.reminders["about"])
    assert "the new height touches" in str(british)


def test_yardsticks_bind_others(plan: rb.Plan) -> None:
    books = {"name": "books on top", "mass": "4 t", "x": "4.2 m", "z": "3 m"}
    top = plan.replace(service={"places": ["GB"]}, fit_out=[books]).evaluate()
    tilt = [row for row in top.to_dict()["checks"] if row["name"] == "tilt angle"]
    assert {row["subject"].split(",")[0] for row in tilt} == {"UN R107 Annex 3", "United Kingdom", "UN R111"}
    assert any(row["verdict"] == "fails" for row in tilt)
    assert all("not a converted bus" in row["reason"] for row in tilt)
