"""The shape of a body as a user sees it, beside what shapely makes of the same outline."""

import math
import pickle

import numpy as np
import pandas as pd
import pytest
from shapely import LineString, Polygon, box

import raisedbody as rb

# Every chord misses its arc by 0.5 mm at most, over some 7 m of outline.
AREA_M2 = 7.0 * 0.5e-3

CHAIN = {
    "start": {"half_width": "1180 mm", "height": "450 mm"},
    "pieces": [
        {"to": {"half_width": "1220 mm", "height": "700 mm"}},
        {"to": {"half_width": "1220 mm", "height": "1680 mm"}},
        {"to": {"half_width": "1182 mm", "height": "2500 mm"}},
        {"to": {"half_width": "900 mm", "height": "2800 mm"}, "radius": "320 mm", "bulge": "out"},
        {"to": {"half_width": "0 mm", "height": "2900 mm"}, "radius": "4100 mm", "bulge": "out"},
    ],
}


@pytest.fixture(params=["heights", "chain"])
def any_build(request: pytest.FixtureRequest, plan: rb.Plan) -> rb.Evaluation:
    """The travelling library by heights and insets, and with its outline as a chain."""
    return (plan.replace(survey={"outline": CHAIN}) if request.param == "chain" else plan).evaluate()


def polygon(outline: rb.Table) -> Polygon:
    """The outline closed along its foot."""
    return Polygon(np.column_stack([outline["y_mm"], outline["z_mm"]]))


def test_areas_and_volume(any_build: rb.Evaluation) -> None:
    body = any_build.body
    floor_mm, length_m = 910.0, 8.05
    for outline, area_m2, volume_m3 in [
        (body.outline_before, body.frontal_area_before_m2, body.enclosed_volume_before_m3),
        (body.outline_after, body.frontal_area_after_m2, body.enclosed_volume_after_m3),
    ]:
        section = polygon(outline)
        assert section.is_valid
        foot_mm = outline["z_mm"][0]
        below_mm2 = 2 * outline["y_mm"][0] * (foot_mm - body.skirt_mm)
        assert area_m2 == pytest.approx((section.area + below_mm2) / 1e6, abs=AREA_M2)
        above_floor = section.intersection(box(-2000, floor_mm, 2000, 5000)).area / 1e6
        assert volume_m3 == pytest.approx(above_floor * length_m, abs=AREA_M2 * length_m)
    assert body.frontal_area_after_m2 > body.frontal_area_before_m2


def test_skins_are_as_long_as_the_outline(any_build: rb.Evaluation) -> None:
    body = any_build.body
    line = LineString(np.column_stack([body.outline_before["y_mm"], body.outline_before["z_mm"]]))
    skins_m2 = body.side_skin_before_m2 + body.roof_skin_m2
    assert skins_m2 == pytest.approx(line.length / 1000 * 8.05, rel=1e-4)
    assert body.side_skin_after_m2 - body.side_skin_before_m2 == pytest.approx(2 * 0.4 * 8.05)
    assert sum(body.pieces["length_mm"]) == pytest.approx(line.length, rel=1e-4)


def test_headroom_at_the_aisle_under_a_ceiling_of_even_thickness(any_build: rb.Evaluation) -> None:
    body = any_build.body
    edge_mm = body.aisle_mm / 2
    # 160 mm of roof over the old ceiling, 100 mm of new ceiling, 50 mm of new floor.
    for outline, lining_mm, floor_mm, found in [
        (body.outline_before, 160, 910, body.aisle_headroom_before_mm),
        (body.outline_after, 260, 960, body.aisle_headroom_after_mm),
    ]:
        room = polygon(outline).buffer(-lining_mm, quad_segs=64)
        upright = LineString([(edge_mm, floor_mm), (edge_mm, 5000)]).intersection(room)
        assert found == pytest.approx(upright.bounds[3] - floor_mm, abs=1.0)
    assert body.aisle_headroom_after_mm < any_build.headroom_mm


def test_an_aisle_of_ones_own(plan: rb.Plan) -> None:
    wide = plan.replace(survey={"aisle": "1.2 m"}, vehicle={"skirt_height": "20 cm"})
    body = wide.evaluate().body
    assert (body.aisle_mm, body.skirt_mm) == (1200, 200)
    assert body.aisle_headroom_after_mm < plan.evaluate().body.aisle_headroom_after_mm
    assert body.frontal_area_before_m2 - plan.evaluate().body.frontal_area_before_m2 == pytest.approx(2.44 * 0.15)
    assumed = set(wide.evaluate().assumed["field"])
    assert not assumed & {"survey.aisle", "vehicle.skirt_height"}
    assert {"survey.aisle", "vehicle.skirt_height"} <= set(plan.evaluate().assumed["field"])


def test_width_at_a_height(any_build: rb.Evaluation) -> None:
    body = any_build.body
    assert body.half_width_mm("1 m") == pytest.approx(1220)
    before, after = body.half_width_mm("2 m"), body.half_width_mm("2.4 m", side="right", raised=True)
    assert before == pytest.approx(after)
    assert body.half_width_mm("4 m", raised=True) == 0
    with pytest.raises(rb.InputError, match="left"):
        body.half_width_mm("1 m", side="top")
    with pytest.raises(rb.QuantityError, match="length"):
        body.half_width_mm("1 kg")


def test_kinks_are_told(any_build: rb.Evaluation) -> None:
    kinks = pd.DataFrame(any_build.body.kinks)
    left = kinks[kinks["side"] == "left"]
    assert len(left) * 2 == len(kinks) > 0
    lean_deg = math.degrees(math.atan(38 / 820))
    assert any(abs(turn - lean_deg) < 0.1 for turn in left["turn_deg"])


def test_features_and_unlike_sides(plan: rb.Plan) -> None:
    door = {"name": "entry door", "kind": "door", "side": "right"} | {
        "bottom": "450 mm",
        "top": "1.95 m",
        "rear": "7.0 m",
        "front": "7.7 m",
    }
    build = plan.replace(survey={"features": [door], "left": {"rub_rail": "1.45 m"}}).evaluate()
    features = build.body.features
    assert features["name"].tolist() == ["entry door", "rub rail, left"]
    assert features["front_mm"].tolist() == pytest.approx([7700, 8050])
    with pytest.raises(rb.InputError, match="passes through this door") as caught:
        plan.replace(survey={"features": [door | {"top": "2.1 m"}]})
    assert caught.value.problems[0].field == "survey.features[0].top"


def test_a_chain_that_contradicts_itself(plan: rb.Plan) -> None:
    pieces = [*CHAIN["pieces"][:3], CHAIN["pieces"][3] | {"radius": "150 mm"}, CHAIN["pieces"][4]]
    with pytest.raises(rb.InputError, match="the arc cannot reach") as caught:
        plan.replace(survey={"outline": CHAIN | {"pieces": pieces}})
    assert caught.value.problems[0].value == "150 mm"
    with pytest.raises(rb.InputError, match="leave one of the two out"):
        plan.replace(survey={"outline": CHAIN, "lean": {"inset": "38 mm", "drop": "820 mm"}})


def test_a_new_outline_takes_the_place_of_the_lean(plan: rb.Plan) -> None:
    chained = plan.replace(survey={"outline": CHAIN})
    assert "lean" not in chained.to_dict()["survey"]
    assert chained.replace(survey={"lean": plan.to_dict()["survey"]["lean"]}) == plan


def test_body_is_a_value_and_shows_in_the_views(any_build: rb.Evaluation) -> None:
    body = any_build.body
    assert body == any_build.body
    assert pickle.loads(pickle.dumps(body)) == body
    assert repr(body).startswith(f"<Body frontal area {body.frontal_area_before_m2:.2f} to ")
    values = any_build.to_dict()["body"]
    assert values["frontal_area_after_m2"] == body.frontal_area_after_m2
    assert values["outline_after"][0]["z_mm"] == body.outline_after["z_mm"][0]
    for view in (str(any_build), any_build._repr_html_()):
        assert "frontal area above" in view
        assert "headroom at the edge of an aisle" in view
