"""Plane frames as a user works with them, and ten bows against two general frame packages (PyNiteFEA, anastruct)."""

import pickle

import numpy as np
import pytest
from bows import bow, by_anastruct, by_pynite, ours

import raisedbody as rb


@pytest.fixture
def portal() -> rb.Frame:
    return rb.Frame(
        [[0, 0], [0, 1800], [2200, 1800], [2200, 0]],
        [(0, 1), (1, 2), (2, 3)],
        area_mm2=1e6,
        second_moment_mm4=[60e3, 40e3, 60e3],
        modulus_mpa=210e3,
        pinned=[0, 3],
    )


def test_a_worked_portal(portal: rb.Frame) -> None:
    # Closed form of a pinned portal (Kleinlogel, from memory), worked by hand
    even = portal.solve([rb.FrameLoad.spread(1, y_n_mm=-1)])
    assert even.at(0, 1.0)["moment_n_mm"] == pytest.approx(-295_778, abs=5)
    assert even.reactions["x_n"][0] == pytest.approx(164.32, abs=0.01)
    assert even.reactions["node"].tolist() == [0, 3]
    pushed = portal.solve([rb.FrameLoad.node(1, x_n=1000)])
    assert pushed.nodes["x_mm"][1] == pytest.approx(147.857, abs=0.01)
    assert pushed.members["largest_moment_n_mm"][0] == pytest.approx(900_000, abs=5)
    assert portal.freedoms == 8
    loaded = [rb.FrameLoad.node(1, x_n=1000), rb.FrameLoad.node(2, y_n=-2000)]
    assert portal.solve(loaded, second_order=True).nodes["x_mm"][1] > portal.solve(loaded).nodes["x_mm"][1]


def test_values_keep(portal: rb.Frame) -> None:
    loads = [rb.FrameLoad.point(1, at=0.25, x_n=10, y_n=-100), rb.FrameLoad.spread(0, start=0.5, x_n_mm=0.1)]
    result = portal.solve(loads)
    for thing in (portal, result, *loads):
        assert pickle.loads(pickle.dumps(thing)) == thing
    assert eval(repr(loads[0]), {"FrameLoad": rb.FrameLoad}) == loads[0]
    assert "8 freedoms" in repr(portal)


@pytest.mark.parametrize(
    ("change", "field"),
    [
        ({"nodes_mm": [1, 2, 3]}, "nodes_mm"),
        ({"area_mm2": [1, 2]}, "area_mm2"),
        ({"members": [(0, 1), (1, 2), (2, 9)]}, "members[2]"),
        ({"modulus_mpa": -1}, "modulus_mpa[0]"),
        ({"area_mm2": [1e6, 0, 1e6]}, "area_mm2[1]"),
        ({"fixed": [0]}, "fixed[0]"),
        ({"pinned": [0, 9]}, "pinned[1]"),
        ({"sprung_n_mm_rad": {1: -1.0}}, "sprung_n_mm_rad"),
        ({"pinned": []}, "supports"),
    ],
)
def test_frames_that_cannot_be(change, field) -> None:
    parts = {
        "nodes_mm": [[0, 0], [0, 1800], [2200, 1800], [2200, 0]],
        "members": [(0, 1), (1, 2), (2, 3)],
        "area_mm2": 1e6,
        "second_moment_mm4": 60e3,
        "modulus_mpa": 210e3,
        "pinned": [0, 3],
    }
    with pytest.raises(rb.InputError) as caught:
        rb.Frame(**(parts | change)).solve([rb.FrameLoad.node(1, x_n=1)])
    assert caught.value.field == field


def test_loads_that_cannot_be(portal: rb.Frame) -> None:
    with pytest.raises(rb.InputError) as caught:
        portal.solve([rb.FrameLoad.spread(0, start=1.5, x_n_mm=1)])
    assert caught.value.field == "loads[0].start"


def test_places_that_are_not_there(portal: rb.Frame) -> None:
    result = portal.solve([rb.FrameLoad.node(1, x_n=1)])
    with pytest.raises(rb.InputError, match="0 to 2"):
        result.at(3, 0.5)
    with pytest.raises(rb.InputError, match="0 to 1"):
        result.at(0, 1.5)


@pytest.mark.parametrize("i", range(10))
def test_ten_bows_against_a_space_frame_package(i: int) -> None:
    """PyNiteFEA: displacements, reactions and moments to 1e-6."""
    b = bow(i)
    mine, theirs = ours(b), by_pynite(b)
    nodes = [theirs.nodes[f"N{k}"] for k in range(b.last + 1)]
    combo = "Combo 1"
    for name, values in (("x_mm", [n.DX[combo] for n in nodes]), ("y_mm", [n.DY[combo] for n in nodes])):
        np.testing.assert_allclose(mine.nodes[name], values, rtol=1e-6, atol=1e-6 * np.abs(values).max())
    feet = [nodes[0], nodes[-1]]
    np.testing.assert_allclose(mine.reactions["x_n"], [n.RxnFX[combo] for n in feet], rtol=1e-6)
    np.testing.assert_allclose(mine.reactions["y_n"], [n.RxnFY[combo] for n in feet], rtol=1e-6)
    moments = [abs(theirs.members[f"M{k}"].moment("Mz", 0)) for k in range(b.last)]
    np.testing.assert_allclose(np.abs(mine.members["start_moment_n_mm"]), moments, rtol=1e-6, atol=1.0)


@pytest.mark.parametrize("i", range(10))
def test_ten_bows_against_a_plane_frame_package(i: int) -> None:
    """anastruct: sways and moments to 1e-6."""
    b = bow(i)
    mine, theirs = ours(b), by_anastruct(b)
    sway = [theirs.get_node_displacements(k + 1)["ux"] for k in range(b.last + 1)]
    np.testing.assert_allclose(np.abs(mine.nodes["x_mm"]), np.abs(sway), rtol=1e-6, atol=1e-6 * np.abs(sway).max())
    largest = [
        max(abs(theirs.get_element_results(k + 1)["Mmin"]), abs(theirs.get_element_results(k + 1)["Mmax"]))
        for k in range(b.last)
    ]
    np.testing.assert_allclose(np.abs(mine.members["largest_moment_n_mm"]), largest, rtol=1e-6, atol=1.0)


def test_a_plan_has_its_bows(build: rb.Evaluation) -> None:
    bows = build.bows
    assert bows["feet"].tolist() == ["pinned", "sprung", "fixed"]
    assert (bows["sway_stiffness_after_n_mm"] < bows["sway_stiffness_before_n_mm"]).all()
    assert (bows["p_delta_ratio"] > 1).all()
    assert "sway stiffness before, N/mm" in str(build)
    assert "sway stiffness of a bow" in build._repr_html_()
    assert len(build.to_dict()["bows"]) == 3
