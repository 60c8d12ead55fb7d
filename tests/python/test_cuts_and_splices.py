"""Where to cut and how inserts are joined, as a user sees it."""

import copy
import json
import math
import pickle

import numpy as np
import pandas as pd
import pytest

import raisedbody as rb


def test_cuts_are_ranked_or_turned_down(plan: rb.Plan) -> None:
    cuts = plan.cuts()
    frame = pd.DataFrame(cuts.table)
    possible = frame[frame["verdict"] == "possible"]
    assert len(frame) == len(cuts) == len(list(cuts))
    assert possible["rank"].tolist() == list(range(1, len(possible) + 1))
    assert possible["labour_h_per_m"].is_monotonic_increasing
    assert (possible["reason"] == "").all()
    others = frame[frame["verdict"] == "turned down"]
    assert others["rank"].isna().all()
    assert (others["reason"] != "").all()
    assert sum(frame["own"]) == 1
    assert cuts[-1].verdict == "turned down"
    with pytest.raises(IndexError, match="cuts"):
        cuts[len(cuts)]


def test_no_cut_beats_an_undominated_one(plan: rb.Plan) -> None:
    frame = pd.DataFrame(plan.cuts().table).dropna(subset=["rank"])
    less = ["splices_count", "skin_area_m2", "transitions_count", "labour_h"]
    costs = np.column_stack([frame[less], -frame[["raised_length_mm", "headroom_gained_mm"]]])
    for own, undominated in zip(costs, frame["undominated"], strict=True):
        beaten = ((costs <= own).all(axis=1) & (costs < own).any(axis=1)).any()
        assert undominated == (not beaten)


def without_cuts_h(build: rb.Evaluation) -> float:
    """What the cuts of sheets and bars take hangs on what can be bought."""
    tasks = zip(build.tasks["name"], build.tasks["labour_h"], strict=True)
    return float(sum(hours for name, hours in tasks if not name.startswith("cut ")))


def test_the_own_cut_counts_as_the_evaluation(plan: rb.Plan, build: rb.Evaluation) -> None:
    own = plan.cuts().own
    assert own is not None
    assert own.own
    assert own.cut_mm == 2000
    assert own.labour_h == pytest.approx(without_cuts_h(build))
    assert own.splices_count == build.splices.splices_count == 40
    row = own.to_dict()
    assert row["headroom_gained_mm"] == pytest.approx(build.headroom_mm - 1830)
    assert row["rank"] == own.rank


def test_a_cut_is_taken_over(plan: rb.Plan) -> None:
    cuts = plan.cuts()
    sloped = next(cut for cut in cuts if cut.ends == "sloped")
    other = plan.with_cut(sloped)
    entries = other.to_dict()["raise"]
    assert entries["ends"] == "sloped"
    assert entries["slope_run"] == "900 mm"
    assert without_cuts_h(other.evaluate()) == pytest.approx(sloped.labour_h)
    back = other.with_cut(cuts[0])
    assert "slope_run" not in back.to_dict()["raise"]
    assert without_cuts_h(back.evaluate()) == pytest.approx(cuts[0].labour_h)
    with pytest.raises(rb.InputError, match="header") as caught:
        plan.with_cut(next(cut for cut in cuts if cut.place == "at the window top"))
    assert caught.value.problems[0].field == "raise.cut"
    with pytest.raises(TypeError):
        plan.with_cut(2000)  # type: ignore[arg-type]


def test_kept_windows_and_doors_turn_cuts_down(plan: rb.Plan) -> None:
    door = {"name": "entry door", "kind": "door", "side": "right", "bottom": "450 mm", "top": "1.95 m"}
    with_door = plan.replace(survey={"features": [door | {"rear": "7.0 m", "front": "7.7 m"}]})
    above = with_door.cuts()[0]  # there is room above it
    assert above.place == "through the windows"
    assert above.allowed_mm == pytest.approx((1950, 2280))
    high = with_door.replace(raise_={"cut": "2.29 m", "windows_kept": [2]}).cuts()
    assert high.turned_down["kept window in the way"] > 0
    reasons = {reason for cut in high for reason in cut.reasons}
    assert any("window 2" in reason for reason in reasons)


def test_inserts_agree_with_the_order(plan: rb.Plan, build: rb.Evaluation) -> None:
    inserts = pd.DataFrame(build.splices.inserts)
    assert len(inserts) == 20
    assert inserts["id"].is_unique
    assert inserts["length_mm"].tolist() == pytest.approx([400 + 2 * 8 * 25.4] * 20)
    order = dict(zip(build.order["item"], build.order["quantity"], strict=True))
    bars = sum(quantity for item, quantity in order.items() if "for inserts" in item)
    assert inserts["bar"].max() == bars
    assert inserts.groupby("bar")["length_mm"].sum().max() <= 20 * 304.8
    assert inserts["drain_hole"].all()


def test_leaning_sides(plan: rb.Plan, build: rb.Evaluation) -> None:
    lean = math.degrees(math.atan(1.5 / 32))
    sides = pd.DataFrame(build.splices.leaning)
    assert sides["kink_lower_deg"].tolist() == pytest.approx([lean, lean])
    assert sides["kink_upper_deg"].tolist() == pytest.approx([lean, lean])
    assert build.splices.roof_too_wide_mm == pytest.approx(2 * 400 * 1.5 / 32)
    assert build.splices.middle_to_left_mm == 0
    upright = plan.replace(survey={"lean": {"inset": "0 mm", "drop": "32 in"}}).evaluate().splices
    assert not np.any([upright.inserts["lower_bend_deg"], upright.inserts["upper_bend_deg"]])
    assert upright.roof_too_wide_mm == 0
    assert not upright.inserts["folded"].any()


def test_an_insert_that_does_not_fit(plan: rb.Plan) -> None:
    large = {"shape": "rectangular tube", "depth": "1 3/8 in", "width": "2 in", "wall": "0.0598 in"}
    build = plan.replace(raise_={"insert": large}).evaluate()
    assert not build.splices.nesting["fits"].any()
    failed = [row for row in build.checks.rows() if row["name"] == "splice nesting, beside"]
    assert [row["verdict"] for row in failed] == ["fails"]
    assert failed[0]["subject"] == "posts 1 to 10, both sides"
    assert "too large" in failed[0]["reason"]


def test_a_tube_in_a_tube_steps_back_and_is_shimmed(plan: rb.Plan) -> None:
    post = {"shape": "rectangular tube", "depth": "50 mm", "width": "40 mm", "wall": "2 mm"}
    insert = {"shape": "rectangular tube", "depth": "44 mm", "width": "34 mm", "wall": "2 mm"}
    survey = dict(plan.to_dict()["survey"]) | {"post": post}
    nesting = plan.replace(survey=survey, raise_={"insert": insert}).evaluate().splices.nesting
    assert nesting["step_mm"] == pytest.approx(2.0)
    assert nesting["step_left_mm"] == pytest.approx(2 - 0.0785 * 25.4)  # 14 ga, zinc-coated


def test_without_a_splice_nothing_is_assessed() -> None:
    build = rb.Plan.read("examples/workshop_bus.toml").evaluate()
    assert build.splices.fit is None
    assert build.splices.fasteners_count is None
    assert np.isnan(build.splices.nesting["step_mm"]).all()
    row = next(row for row in build.checks.rows() if row["name"] == "splice nesting")
    assert row["verdict"] == "not assessed"
    assert "raise.splice" in row["reason"]


def test_fasteners_are_told(build: rb.Evaluation) -> None:
    splices = build.splices
    assert splices.fit == "inside"
    assert splices.fasteners_count == 8
    assert splices.fastener_spacing_mm == pytest.approx((203.2 - 60) / 3)
    assert splices.moment_n_mm == pytest.approx(max(build.bows["splice_design_moment_n_mm"]))
    arms = np.array([-1.5, -0.5, 0.5, 1.5]) * splices.fastener_spacing_mm
    assert splices.fastener_n > splices.moment_n_mm / 2 * arms[-1] / (arms**2).sum()


def test_they_are_values_with_views(plan: rb.Plan, build: rb.Evaluation) -> None:
    cuts = plan.cuts()
    for value in (cuts, cuts[3], cuts.own, build.splices):
        assert value is not None
        assert pickle.loads(pickle.dumps(value)) == value
        assert copy.deepcopy(value) == value
        assert value != "text"
        assert " object at " not in repr(value)
        assert json.loads(json.dumps(value.to_dict()))
    assert repr(cuts[0]) == "<Cut at 2000 mm, posts 1 to 10, whole roof: rank 1>"
    for view in (str(cuts), cuts._repr_html_()):
        assert "the plan&#x27;s own" in view or "the plan's own" in view
        assert "header cut" in view
    for view in (str(build), build._repr_html_(), str(build.splices), build.splices._repr_html_()):
        assert "L1 to L10, R1 to R10" in view
        assert "following the lean" in view
    assert build.to_dict()["splices"]["inserts"][0]["id"] == "L1"
    assert "zinc" in " ".join(build.splices.notes)
