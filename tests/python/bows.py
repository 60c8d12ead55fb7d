"""Ten bus bows, arched and stepped, and the same bows in two general frame packages. All figures invented."""

from dataclasses import dataclass
from math import cos, pi, sin
from typing import Any

import raisedbody as rb


@dataclass(frozen=True)
class Bow:
    """Nodes from the left foot over the roof to the right foot, a section for each piece, loads on corner and crown."""

    nodes_mm: list[tuple[float, float]]
    second_moment_mm4: list[float]
    area_mm2: float
    fixed: bool
    push_n: float
    roof_n: float
    modulus_mpa: float = 205_000.0

    @property
    def last(self) -> int:
        """Number of the right foot."""
        return len(self.nodes_mm) - 1

    @property
    def corner(self) -> int:
        """Number of the node that is pushed."""
        return 2

    @property
    def crown(self) -> int:
        """Number of the node that carries the roof load."""
        return len(self.nodes_mm) // 2


def bow(i: int) -> Bow:
    """Number i of ten: even ones arched, odd ones stepped (the insert stands out from the post)."""
    width, height, rise = 2200.0 + 30 * i, 1200.0 + 40 * i, 200.0 + 25 * i
    step = 12.0 if i % 2 else 0.0
    left = [(0.0, 0.0), (step, 0.45 * height), (step, height)]
    arch = [(width / 2 - (width / 2 - step) * cos(pi * k / 6), height + rise * sin(pi * k / 6)) for k in range(1, 6)]
    right = [(width - x, y) for x, y in reversed(left)]
    nodes = left + arch + right
    post, insert, roof = 60e3 + 4e3 * i, 45e3 + 2e3 * i, 40e3 + 3e3 * i
    second = [post, insert, *[roof] * 6, insert, post]
    return Bow(nodes, second, 180.0 + 10 * i, i % 3 == 0, 800.0 + 50 * i, 1500.0 + 100 * i)


def ours(b: Bow) -> rb.FrameResult:
    """Solved here."""
    feet = [0, b.last]
    frame = rb.Frame(
        b.nodes_mm,
        [(k, k + 1) for k in range(b.last)],
        area_mm2=b.area_mm2,
        second_moment_mm4=b.second_moment_mm4,
        modulus_mpa=b.modulus_mpa,
        pinned=[] if b.fixed else feet,
        fixed=feet if b.fixed else [],
    )
    return frame.solve([rb.FrameLoad.node(b.corner, x_n=b.push_n), rb.FrameLoad.node(b.crown, y_n=-b.roof_n)])


def by_pynite(b: Bow) -> Any:
    """The same bow in PyNiteFEA, solved."""
    from Pynite import FEModel3D

    model = FEModel3D()
    for k, (x, y) in enumerate(b.nodes_mm):
        model.add_node(f"N{k}", x, y, 0)
    model.add_material("steel", b.modulus_mpa, b.modulus_mpa / 2.6, 0.3, 0)
    for k, second in enumerate(b.second_moment_mm4):
        model.add_section(f"S{k}", b.area_mm2, second, second, 1e4)
        model.add_member(f"M{k}", f"N{k}", f"N{k + 1}", "steel", f"S{k}")
    for k in range(b.last + 1):
        foot = k in (0, b.last)
        # Out of the plane everything is held.
        model.def_support(f"N{k}", foot, foot, True, True, True, foot and b.fixed)
    model.add_node_load(f"N{b.corner}", "FX", b.push_n)
    model.add_node_load(f"N{b.crown}", "FY", -b.roof_n)
    model.analyze_linear()
    return model


def by_anastruct(b: Bow) -> Any:
    """The same bow in anastruct, solved."""
    from anastruct import SystemElements

    system = SystemElements()
    for k, second in enumerate(b.second_moment_mm4):
        ends = [list(b.nodes_mm[k]), list(b.nodes_mm[k + 1])]
        system.add_element(ends, EA=b.area_mm2 * b.modulus_mpa, EI=second * b.modulus_mpa)
    for node in (1, b.last + 1):
        if b.fixed:
            system.add_support_fixed(node)
        else:
            system.add_support_hinged(node)
    system.point_load(b.corner + 1, Fx=b.push_n)
    system.point_load(b.crown + 1, Fy=-b.roof_n)
    system.solve()
    return system
