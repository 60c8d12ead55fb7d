"""Loads on the skins and how flat they lie, as a user works with them. Laws and published values are tested in Rust."""

from __future__ import annotations

import math

import pytest

import raisedbody as rb

LIBRARY = rb.Plan.read("examples/mobile_library.toml")
BUILD = LIBRARY.evaluate()


def test_skin_loads() -> None:
    loads = BUILD.skin_loads
    assert list(loads) == ["load", "place", "case", "value", "unit"]
    row = {(loads["place"][i], loads["case"][i]): loads["value"][i] for i in range(len(loads["place"]))}
    # 689 Pa at 75 mph: 1.5 behind the front edge and 0.2 inside.
    assert row["behind the front edge", "on the road"] == pytest.approx(1.7 * 689, rel=2e-3)
    assert row["front face", "on the road"] < 0
    assert BUILD.suction_pa == max(
        value for (_, case), value in row.items() if case in {"on the road", "crosswind at rest"} or "passing" in case
    )


def test_demand_by_line() -> None:
    joints = BUILD.joints
    # Its end caps go round the corners, and there the air pulls as on the sides.
    assert {"side", "behind the front edge"} == set(joints["zone"])
    for i, kind in enumerate(joints["kind"]):
        assert joints["shear_n"][i] == pytest.approx(joints["line_n_mm"][i] * joints["pitch_mm"][i])
        assert (joints["temperature_n_mm"][i] == 0) == (kind == "post")
        assert joints["shear_case"][i]
        assert joints["tension_case"][i] in {"on the road", "another vehicle passing", "crosswind at rest"}


def test_panels_and_advice() -> None:
    panels, advice = BUILD.flatness, BUILD.flatness_advice
    told = [lies != "not assessed" for lies in panels["sun"]]
    assert set(panels["sun"]) == {"in tension", "not assessed"}
    assert all(panels["bow_high_mm"][told] == 0)
    assert all(panels["pull_high_n_mm"][told] > 0)
    assert all(panels["critical_low_k"][told] < panels["critical_high_k"][told])
    assert all(panels["drumming_low_hz"][told] < panels["drumming_high_hz"][told])
    assert all(math.isnan(k) for k in panels["sun_k"][[not own for own in told]])
    assert sorted(set(advice["remedy"])) == [
        "a crown",
        "a post or stiffener in the middle of the bay",
        "bonded to the posts",
        "gauge 16",
        "hung warmer than its frame",
    ]


def test_black_hung_even_oil_cans() -> None:
    flatness = {"surface": "black paint", "hang": {"skin": "24 degC", "frame": "24 degC"}}
    even = LIBRARY.replace(flatness=flatness).evaluate()
    assert "oil-cans where held" in set(even.flatness["sun"])
    assert max(row["bow_high_mm"] for row in even.flatness.rows() if row["sun"] != "not assessed") > 5
    advice = even.flatness_advice
    warmer = advice["value_high"][list(advice["remedy"]).index("hung warmer than its frame")]
    assert warmer == pytest.approx(even.flatness["sun_k"][0])
    flatness["hang"] = {"skin": f"{24.5 + warmer} degC", "frame": "24 degC"}
    assert set(LIBRARY.replace(flatness=flatness).evaluate().flatness["sun"]) == {"in tension", "not assessed"}


def test_outside_the_rules() -> None:
    build = LIBRARY.replace(flatness={"hang": {"skin": "-60 degC", "frame": "120 degC"}}).evaluate()
    panels = build.flatness
    assert set(panels["sun"]) == {"outside the rule's range", "not assessed"}
    assert all(math.isnan(bow) for bow in panels["bow_high_mm"])
    assert all(panels["reason"])


def test_ends() -> None:
    panels = BUILD.flatness
    assert set(panels["part"]) == {"side", "end"}
    for row in panels.rows():
        assert (row["course"] > 0) == (row["part"] == "side")
        assert row["suction_pa"] > 0
        if row["sun"] == "not assessed":
            assert row["part"] == "end"
            assert "bend" in row["panel"] or "leg" in row["panel"]
            assert row["reason"]
            assert not row["note"]
            assert math.isnan(row["suction_bow_low_mm"])
        else:
            assert "do not simply add up" in row["note"]
    face = next(row for row in panels.rows() if row["panel"] == "rear cap, face")
    assert (face["side"], face["height_mm"]) == ("", pytest.approx(400))
    assert "its bends hold its ends" in face["note"]


def test_bow_under_suction() -> None:
    firm = LIBRARY.replace(flatness={"restraint": {"least": "50 %"}}).evaluate()
    told = [row for row in firm.flatness.rows() if row["sun"] != "not assessed"]
    assert all(0 < row["suction_bow_low_mm"] < row["suction_bow_high_mm"] for row in told)
    # A heavier gauge bows less; panels behind the front edge bow more than those of their size farther back.
    heavier = LIBRARY.replace({"skin": {"gauge": 16}, "flatness": {"restraint": {"least": "50 %"}}}).evaluate()
    for one, two in zip(told, (r for r in heavier.flatness.rows() if r["sun"] != "not assessed"), strict=True):
        assert two["suction_bow_high_mm"] < one["suction_bow_high_mm"]
    pulls = {(row["width_mm"], row["height_mm"], row["suction_pa"]): row["suction_bow_high_mm"] for row in told}
    for (width, height, pa), bow in pulls.items():
        assert all(bow <= other for (w, h, p), other in pulls.items() if (w, h) == (width, height) and p >= pa)
    # Without a limit nothing is checked; with one, heat and suction each by itself.
    names = {"panel bow in the sun", "panel bow under suction"}
    assert not names & set(firm.checks["name"])
    limited = LIBRARY.replace(flatness={"restraint": {"least": "50 %"}, "most_bow": "3 in"}).evaluate()
    assert names <= set(limited.checks["name"])


def test_an_unknown_hold_is_not_stretched() -> None:
    # Edges that may draw in freely: the law ends for thin sheet on the widest panels, and says so.
    loose = LIBRARY.replace({"skin": {"gauge": 22}, "flatness": {"most_bow": "4 in"}}).evaluate()
    beyond = [row for row in loose.flatness.rows() if math.isnan(row["suction_bow_high_mm"]) and row["note"]]
    assert beyond
    assert all("flatness.restraint" in row["reason"] or "least" in row["reason"] for row in beyond)
    verdicts = dict(zip(loose.checks["name"], loose.checks["verdict"], strict=True))
    assert verdicts["panel bow under suction"] == "outside the rule's range"


def test_shown_and_as_plain_values() -> None:
    plain = BUILD.to_dict()
    assert len(plain["flatness"]) == len(BUILD.flatness["panel"])
    assert {"skin_loads", "flatness_advice"} < set(plain)
    for shown in (str(BUILD), BUILD._repr_html_()):
        assert "skin over frame" in shown
        assert "hung warmer than its frame" in shown
        assert "another vehicle passing" in shown
        assert "bow under it, mm" in shown
        assert "rear cap, bend, left" in shown


@pytest.mark.parametrize(
    ("changes", "path", "allowed"),
    [
        ({"loads": {"side_suction": "9"}}, "loads.side_suction", "0 to 5"),
        ({"flatness": {"sun": "3000 W/m2"}}, "flatness.sun", "1400"),
        ({"flatness": {"most_bow": "0 mm"}}, "flatness.most_bow", "0.1 mm"),
        ({"loads": {"front_radius": "3 in", "edge_suction": "1"}}, "loads.front_radius", "one of them"),
    ],
)
def test_refused(changes: dict[str, dict[str, str]], path: str, allowed: str) -> None:
    with pytest.raises(rb.InputError) as refused:
        LIBRARY.replace(changes)
    assert path in str(refused.value)
    assert allowed in str(refused.value)
