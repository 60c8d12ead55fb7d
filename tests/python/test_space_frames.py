"""Space frames as a user works with them, and braced and unbraced ones against a general frame package (PyNiteFEA)."""

import pickle
from dataclasses import dataclass, field
from typing import Any

import numpy as np
import pytest

import raisedbody as rb

E, G = 205_000.0, 80_000.0
AREA, WEAK, STRONG, TORSION = 420.0, 2.4e5, 5.1e5, 3.2e5


@dataclass
class Case:
    """A frame of beams and bars on feet, with loads. All figures invented."""

    nodes_mm: list[tuple[float, float, float]]
    beams: list[tuple[int, int]]
    bars: list[tuple[int, int]] = field(default_factory=list)
    pinned: list[int] = field(default_factory=list)
    fixed: list[int] = field(default_factory=list)
    loads: dict[int, tuple[float, ...]] = field(default_factory=dict)


def table(height: float, *, braced: bool, fixed: bool) -> Case:
    """Four posts and a ring of rails, pushed at two corners; with or without a diagonal in every side."""
    corners = [(0.0, 0.0), (5600.0, 0.0), (5600.0, 2200.0), (0.0, 2200.0)]
    nodes = [(x, y, 0.0) for x, y in corners] + [(x + 30, y + 20, height) for x, y in corners]
    ring = [(4, 5), (5, 6), (6, 7), (7, 4)]
    return Case(
        nodes,
        beams=[*((i, i + 4) for i in range(4)), *ring],
        bars=[(0, 5), (1, 6), (2, 7), (3, 4)] if braced else [],
        pinned=[] if fixed else [0, 1, 2, 3],
        fixed=[0, 1, 2, 3] if fixed else [],
        loads={4: (900, -400, -1200, 3e4, -2e4, 1e4), 6: (0, 700, -1500, 0, 0, 0)},
    )


def tower(height: float) -> Case:
    """A truss of bars alone: two storeys of a square with diagonals in every face and floor."""
    nodes = [(x, y, z) for z in (0.0, height, 2 * height) for x, y in ((0, 0), (1500, 0), (1500, 1200), (0, 1200))]
    bars = []
    for low in (0, 4):
        for i in range(4):
            j = (i + 1) % 4
            bars += [(low + i, low + 4 + i), (low + 4 + i, low + 4 + j), (low + i, low + 4 + j)]
        bars.append((low + 4, low + 6))
    loads = {8: (500, 300, -2000, 0, 0, 0), 10: (500, 0, -2500, 0, 0, 0)}
    return Case(nodes, beams=[], bars=bars, pinned=[0, 1, 2, 3], loads=loads)


CASES = {
    "table, unbraced, fixed": table(1500, braced=False, fixed=True),
    "table, unbraced, pinned": table(900, braced=False, fixed=False),
    "table, braced, pinned": table(1500, braced=True, fixed=False),
    "table, braced, fixed, tall": table(2900, braced=True, fixed=True),
    "tower of bars": tower(1400),
    "slanted cantilever": Case(
        [(0, 0, 0), (700, 300, 900), (1500, -200, 1300)],
        [(0, 1), (1, 2)],
        fixed=[0],
        loads={2: (100, -200, -300, 1e4, 2e4, 3e4)},
    ),
}


def frame_of(case: Case) -> rb.SpaceFrame:
    members = case.beams + case.bars
    return rb.SpaceFrame(
        case.nodes_mm,
        members,
        bars=range(len(case.beams), len(members)),
        area_mm2=AREA,
        modulus_mpa=E,
        second_moment_y_mm4=WEAK,
        second_moment_z_mm4=STRONG,
        torsion_mm4=TORSION,
        shear_modulus_mpa=G,
        pinned=case.pinned,
        fixed=case.fixed,
    )


def ours(case: Case) -> rb.SpaceFrameResult:
    names = ("x_n", "y_n", "z_n", "moment_x_n_mm", "moment_y_n_mm", "moment_z_n_mm")
    return frame_of(case).solve(
        [rb.SpaceLoad(node, **dict(zip(names, values, strict=True))) for node, values in case.loads.items()]
    )


def by_pynite(case: Case) -> Any:
    """The same frame there, where y points up: (x, y, z) becomes (x, z, -y)."""
    from Pynite import FEModel3D

    model = FEModel3D()
    model.add_material("steel", E, G, 0.3, 0)
    model.add_section("S", AREA, WEAK, STRONG, TORSION)
    for k, (x, y, z) in enumerate(case.nodes_mm):
        model.add_node(f"N{k}", x, z, -y)
    beams = {node for beam in case.beams for node in beam}
    for k, (i, j) in enumerate(case.beams + case.bars):
        model.add_member(f"M{k}", f"N{i}", f"N{j}", "steel", "S")
        if k >= len(case.beams):
            model.def_releases(f"M{k}", Rxi=True, Ryi=True, Rzi=True, Ryj=True, Rzj=True)
    for k in range(len(case.nodes_mm)):
        held, turning = k in case.pinned + case.fixed, k in case.fixed or k not in beams
        model.def_support(f"N{k}", held, held, held, turning, turning, turning)
    for node, (x, y, z, mx, my, mz) in case.loads.items():
        values = {"FX": x, "FY": z, "FZ": -y, "MX": mx, "MY": mz, "MZ": -my}
        for direction, value in values.items():
            model.add_node_load(f"N{node}", direction, value)
    model.analyze_linear()
    return model


@pytest.mark.parametrize("name", CASES)
def test_the_same_in_a_space_frame_package(name: str) -> None:
    """PyNiteFEA: displacements, reactions, axial forces and moments to 1e-6."""
    case = CASES[name]
    mine, theirs = ours(case), by_pynite(case)
    combo = "Combo 1"
    nodes = [theirs.nodes[f"N{k}"] for k in range(len(case.nodes_mm))]

    def agree(values: Any, expected: Any) -> None:
        expected = np.asarray(expected, dtype=float)
        np.testing.assert_allclose(values, expected, rtol=1e-6, atol=1e-6 * np.abs(expected).max() + 1e-9)

    agree(mine.nodes["x_mm"], [n.DX[combo] for n in nodes])
    agree(mine.nodes["y_mm"], [-n.DZ[combo] for n in nodes])
    agree(mine.nodes["z_mm"], [n.DY[combo] for n in nodes])
    if case.beams:
        agree(mine.nodes["turn_z_rad"], [n.RY[combo] for n in nodes])
    feet = [nodes[int(k)] for k in mine.reactions["node"]]
    agree(mine.reactions["x_n"], [n.RxnFX[combo] for n in feet])
    agree(mine.reactions["y_n"], [-n.RxnFZ[combo] for n in feet])
    agree(mine.reactions["z_n"], [n.RxnFY[combo] for n in feet])
    members = [theirs.members[f"M{k}"] for k in range(len(case.beams) + len(case.bars))]
    agree(mine.members["axial_n"], [-m.axial(0) for m in members])
    strong = [abs(m.moment("Mz", 0)) for m in members]
    agree(np.abs(mine.members["start_moment_z_n_mm"]), strong)
    agree(np.abs(mine.members["start_moment_y_n_mm"]), [abs(m.moment("My", 0)) for m in members])


def test_a_brace_stiffens() -> None:
    sway = [np.abs(ours(table(1500, braced=b, fixed=False)).nodes["x_mm"]).max() for b in (False, True)]
    assert sway[1] < sway[0] / 5


def test_eulers_column() -> None:
    # π² E I/L² for a column pinned at both ends, in eight pieces
    column = rb.SpaceFrame(
        [(0, 0, 250 * i) for i in range(9)],
        [(i, i + 1) for i in range(8)],
        area_mm2=400,
        modulus_mpa=E,
        second_moment_y_mm4=2e4,
        second_moment_z_mm4=9e4,
        torsion_mm4=1e4,
        shear_modulus_mpa=G,
        held={0: ["x", "y", "z", "about z"], 8: ["x", "y"]},
    )
    factor = column.critical_load_factor([rb.SpaceLoad(8, z_n=-1000)])
    assert factor == pytest.approx(np.pi**2 * E * 2e4 / 2000**2 / 1000, rel=1e-4)
    assert column.critical_load_factor([rb.SpaceLoad(8, z_n=1000)]) is None


def test_springs_and_up() -> None:
    # P/k at the free end of a bar along x, and a cantilever laid on its side
    held = {0: ["x", "y", "z"], 1: ["y", "z"]}
    bar = rb.SpaceFrame(
        [(0, 0, 0), (1000, 0, 0)], [(0, 1)], bars=[0], area_mm2=1, modulus_mpa=1000, held=held, springs={1: {"x": 4.0}}
    )
    assert bar.solve([rb.SpaceLoad(1, x_n=10)]).nodes["x_mm"][1] == pytest.approx(2.0)
    sizes = {"area_mm2": 400, "modulus_mpa": E, "torsion_mm4": 1e4, "shear_modulus_mpa": G}
    moments = {"second_moment_y_mm4": 2e4, "second_moment_z_mm4": 9e4}
    laid = rb.SpaceFrame([(0, 0, 0), (1000, 0, 0)], [(0, 1)], fixed=[0], up={0: (0, 1, 0)}, **sizes, **moments)
    down = laid.solve([rb.SpaceLoad(1, z_n=-300)]).nodes["z_mm"][1]
    assert down == pytest.approx(-300 * 1000**3 / (3 * E * 2e4))


@pytest.mark.parametrize("name", CASES)
def test_values_keep(name: str) -> None:
    case = CASES[name]
    result = ours(case)
    for thing in (frame_of(case), result, rb.SpaceLoad(3, y_n=2, moment_x_n_mm=-1)):
        assert pickle.loads(pickle.dumps(thing)) == thing
    load = rb.SpaceLoad(3, y_n=2.5)
    assert eval(repr(load), {"SpaceLoad": rb.SpaceLoad}) == load
    assert "freedoms" in repr(frame_of(case))
    assert "moves" in repr(result)


def test_a_frame_held_every_way_keeps() -> None:
    frame = rb.SpaceFrame(
        [(0, 0, 0), (0, 0, 1000), (0, 900, 1000)],
        [(0, 1), (1, 2)],
        bars=[1],
        area_mm2=100,
        modulus_mpa=E,
        second_moment_y_mm4=1e4,
        second_moment_z_mm4=1e4,
        torsion_mm4=1e4,
        shear_modulus_mpa=G,
        up={0: (1, 1, 0)},
        fixed=[2],
        held={0: ["x", "y", "z", "about z"]},
        springs={0: {"about x": 1e7, "about y": 2e7}, 1: {"x": 3.0}},
    )
    assert pickle.loads(pickle.dumps(frame)) == frame


@pytest.mark.parametrize(
    ("change", "name", "words"),
    [
        ({"nodes_mm": [[0, 0], [1, 1]]}, "nodes_mm", "x, y and z"),
        ({"members": [(0, 3), (1, 3), (2, 9)]}, "members[2]", "nodes 0 to 3"),
        ({"bars": [7]}, "bars", "members 0 to 2"),
        ({"bars": [0, 1]}, "second_moment_y_mm4", "beams need it"),
        ({"area_mm2": [1, 2]}, "area_mm2", "one for each of the 3"),
        ({"area_mm2": -1}, "members[0].area", "out of range"),
        ({"held": {0: ["sideways"]}, "pinned": [1, 2]}, "held[0]", "direction"),
        ({"springs": {0: {"x": -1.0}}, "pinned": [1, 2]}, "supports[0].moves[0]", "out of range"),
        ({"held": {0: ["x"]}}, "supports[1].node", "held already"),
        ({"up": {8: (0, 0, 1)}}, "up", "members 0 to 2"),
        ({"pinned": [0, 1]}, "supports", "a mechanism"),
    ],
)
def test_frames_that_cannot_be(change: dict[str, Any], name: str, words: str) -> None:
    parts: dict[str, Any] = {
        "nodes_mm": [[1000, 0, 0], [-500, 866, 0], [-500, -866, 0], [0, 0, 2000]],
        "members": [(0, 3), (1, 3), (2, 3)],
        "bars": [0, 1, 2],
        "area_mm2": 200,
        "modulus_mpa": E,
        "pinned": [0, 1, 2],
    }
    with pytest.raises(rb.InputError, match=words) as caught:
        rb.SpaceFrame(**(parts | change)).solve([rb.SpaceLoad(3, z_n=-1)])
    assert caught.value.field == name


def test_a_mechanism_names_node_and_direction() -> None:
    flat = rb.SpaceFrame(
        [(0, 0, 0), (1000, 0, 0), (500, 0, 800)],
        [(0, 2), (1, 2)],
        bars=[0, 1],
        area_mm2=100,
        modulus_mpa=E,
        pinned=[0, 1],
    )
    with pytest.raises(rb.InputError, match="node 2 can move along y"):
        flat.solve([rb.SpaceLoad(2, z_n=-1)])
