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
    assert set(panels["sun"]) == {"in tension"}
    assert all(panels["bow_high_mm"] == 0)
    assert all(panels["pull_high_n_mm"] > 0)
    assert all(panels["critical_low_k"] < panels["critical_high_k"])
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
    assert max(even.flatness["bow_high_mm"]) > 5
    advice = even.flatness_advice
    warmer = advice["value_high"][list(advice["remedy"]).index("hung warmer than its frame")]
    assert warmer == pytest.approx(even.flatness["sun_k"][0])
    flatness["hang"] = {"skin": f"{24.5 + warmer} degC", "frame": "24 degC"}
    assert set(LIBRARY.replace(flatness=flatness).evaluate().flatness["sun"]) == {"in tension"}


def test_outside_the_rules() -> None:
    build = LIBRARY.replace(flatness={"hang": {"skin": "-60 degC", "frame": "120 degC"}}).evaluate()
    panels = build.flatness
    assert set(panels["sun"]) == {"outside the rule's range"}
    assert all(math.isnan(bow) for bow in panels["bow_high_mm"])
    assert all(panels["reason"])


def test_shown_and_as_plain_values() -> None:
    plain = BUILD.to_dict()
    assert len(plain["flatness"]) == len(BUILD.flatness["panel"])
    assert {"skin_loads", "flatness_advice"} < set(plain)
    for shown in (str(BUILD), BUILD._repr_html_()):
        assert "skin over frame" in shown
        assert "hung warmer than its frame" in shown
        assert "another vehicle passing" in shown


@pytest.mark.parametrize(
    ("changes", "path", "allowed"),
    [
        ({"loads": {"side_suction": "9"}}, "loads.side_suction", "0 to 5"),
        ({"flatness": {"sun": "3000 W/m2"}}, "flatness.sun", "1400"),
        ({"loads": {"front_radius": "3 in", "edge_suction": "1"}}, "loads.front_radius", "one of them"),
    ],
)
def test_refused(changes: dict[str, dict[str, str]], path: str, allowed: str) -> None:
    with pytest.raises(rb.InputError) as refused:
        LIBRARY.replace(changes)
    assert path in str(refused.value)
    assert allowed in str(refused.value)
