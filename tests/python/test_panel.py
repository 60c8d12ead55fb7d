"""Panels as a user works with them, against a general finite-element package and by hand.

Published values and laws are tested in Rust.
"""

import copy
import json
import math
import pickle
from collections.abc import Callable
from typing import Any

import numpy as np
import pint
import pytest
from scipy.sparse.linalg import eigsh
from skfem import Basis, BilinearForm, ElementTriMorley, LinearForm, MeshTri, condense, solve
from skfem.helpers import dd, ddot, grad, trace

import raisedbody as rb

NU = 0.3


class Plate:
    """A Kirchhoff plate of D = 1 and b = 1 by Morley elements."""

    def __init__(self, aspect: float, edges: str, across: int = 40) -> None:
        x = np.linspace(0, aspect, round(across * aspect) + 1)
        mesh = MeshTri.init_tensor(x, np.linspace(0, 1, across + 1))
        self.basis = Basis(mesh, ElementTriMorley())
        rim = self.basis.get_dofs()
        # A clamped rim holds slope (at the middles of sides) and place, a simple one only the place.
        self.held = rim.all() if edges == "clamped" else rim.all("u")

        @BilinearForm
        def bending(u: Any, v: Any, _: Any) -> Any:
            return (1 - NU) * ddot(dd(u), dd(v)) + NU * trace(dd(u)) * trace(dd(v))

        self.stiffness = bending.assemble(self.basis)

    def bow(self) -> float:
        """At the middle, for a unit pressure."""

        @LinearForm
        def pressure(v: Any, _: Any) -> Any:
            return v

        bowed = solve(*condense(self.stiffness, pressure.assemble(self.basis), D=self.held))
        mesh = self.basis.mesh
        middle = np.argmin(np.hypot(*(mesh.p - mesh.p.max(axis=1, keepdims=True) / 2)))
        return float(bowed[self.basis.nodal_dofs[0, middle]])

    def buckling(self, along: float, across: float, shear: float) -> float:
        """Coefficient k of the least buckling load: N b² / (π² D)."""

        @BilinearForm
        def loaded(u: Any, v: Any, _: Any) -> Any:
            a, b = grad(u), grad(v)
            return along * a[0] * b[0] + across * a[1] * b[1] + shear * (a[0] * b[1] + a[1] * b[0])

        # The load is indefinite in shear, the stiffness never: load x = (1/N) stiffness x.
        load, stiffness, *_ = condense(loaded.assemble(self.basis), self.stiffness, D=self.held)
        return float(1 / eigsh(load, 1, stiffness, which="LA", return_eigenvectors=False)[0] / math.pi**2)

    def frequency(self) -> float:
        """Coefficient ω b² √(ρ t / D)."""

        @BilinearForm
        def mass(u: Any, v: Any, _: Any) -> Any:
            return u * v

        inertia, stiffness, *_ = condense(mass.assemble(self.basis), self.stiffness, D=self.held)
        return float(eigsh(inertia, 1, stiffness, which="LA", return_eigenvectors=False)[0] ** -0.5)


def panel(aspect: float, edges: str, **other: Any) -> rb.Panel:
    return rb.Panel(
        a=f"{700 * aspect!r} mm", b="700 mm", thickness="1 mm", edges=edges, modulus="205 GPa", poisson=NU, **other
    )


def extrapolated(aspect: float, edges: str, answer: Callable[[Plate], float]) -> float:
    """Of two meshes: the error of Morley's element goes with the square of its size."""
    coarse, fine = (answer(Plate(aspect, edges, across)) for across in (20, 40))
    return fine + (fine - coarse) / 3


@pytest.mark.parametrize(("aspect", "edges"), [(1.0, "clamped"), (1.5, "simple"), (2.5, "clamped")])
def test_plates_against_finite_elements(aspect: float, edges: str) -> None:
    own = panel(aspect, edges)

    def plate(answer: Callable[[Plate], float]) -> float:
        return extrapolated(aspect, edges, answer)

    assert own.compression().k == pytest.approx(plate(lambda p: p.buckling(1, 0, 0)), rel=0.004)
    assert own.biaxial().k == pytest.approx(plate(lambda p: p.buckling(1, 1, 0)), rel=0.004)
    # The formula of shear is a fit between a square and an endless panel.
    assert own.shear().k == pytest.approx(plate(lambda p: p.buckling(0, 0, 1)), rel=0.04)
    assert own.frequency().frequency_coefficient == pytest.approx(plate(Plate.frequency), rel=0.004)
    # w D / (q b⁴) = c / (12 (1 - ν²)).
    pressure = 0.01 * 205e3 / 700**4
    coefficient = own.bow(f"{pressure!r} MPa").linear_mm / (pressure * 700**4 / 205e3)
    assert coefficient / (12 * (1 - NU**2)) == pytest.approx(plate(Plate.bow), rel=0.004)


def test_other_holds_are_of_compression_only() -> None:
    held = panel(1.0, "sides clamped")
    assert held.compression().k == pytest.approx(6.32 / 0.822, rel=2e-3)
    for ask in (held.shear, held.biaxial, held.bow, held.frequency):
        with pytest.raises(rb.InputError, match="edges"):
            ask()
    with pytest.raises(rb.InputError, match=r"a: a/b = 5\.5 is out of range"):
        panel(5.5, "side free").compression()


def test_a_warm_panel() -> None:
    side = panel(2.0, "simple", expansion_um_m_k=12)
    hot = side.heating("40 K")
    assert hot.flat_force_n_mm == pytest.approx(205e3 * 12e-6 * 40 / 0.7)
    assert hot.buckled
    assert hot.line_force_n_mm == pytest.approx(side.biaxial().stress_mpa)
    assert hot.critical_rise_k == pytest.approx(side.biaxial().stress_mpa * 0.7 / (205e3 * 12e-6))
    one_way = side.heating("40 K", restraint="along a")
    assert one_way.strip_bow_mm is None
    assert one_way.critical_rise_k == pytest.approx(side.compression().stress_mpa / (205e3 * 12e-6))
    cold = side.heating("-20 K")
    assert not cold.buckled
    assert cold.line_force_n_mm < 0
    # The series and the strip are two hands at one thing.
    warm = side.bow(rise="4 K")
    assert warm.bow_mm == pytest.approx(side.heating("4 K").strip_bow_mm, rel=0.05)
    assert warm.linear_mm == 0
    with pytest.raises(rb.InputError, match=r"rise: 40\.?0? K is out of range; allowed: up to"):
        side.bow(rise="40 K")


def test_only_skin_over_frame_counts() -> None:
    side = panel(2.0, "simple", expansion_um_m_k=11.7)

    def over(skin: float, frame: float, **more: str) -> float:
        return side.skin_over_frame_k(
            skin=f"{skin} degC", frame=f"{frame} degC", skin_hung="20 degC", frame_hung="20 degC", **more
        )

    assert over(60, 60) == pytest.approx(0, abs=1e-9)
    assert over(60, 30) == pytest.approx(30)
    assert over(60, 30, slip="0.1 mm") == pytest.approx(30 - 0.1 / 1400 / 11.7e-6)
    assert over(60, 30, slip="2 mm") == 0
    # A frame of aluminium outgrows its skin.
    assert over(60, 60, frame_material="aluminium 6061") < 0
    with pytest.raises(rb.InputError) as refused:
        side.skin_over_frame_k(
            skin="300 degC",
            frame="20 degC",
            skin_hung="20 degC",
            frame_hung="20 degC",
            frame_material="wood",
            slip="9 mm",
        )
    assert {problem.field for problem in refused.value.problems} == {"skin", "frame_material", "slip"}


def test_pressure_bows_less_the_more_the_sheet_stretches() -> None:
    side = panel(1.0, "simple")
    small, large = side.bow("0.05 Pa"), side.bow("1.03 kPa")
    assert small.bow_mm == pytest.approx(small.linear_mm, rel=2e-3)
    assert large.bow_mm < 0.2 * large.linear_mm
    assert large.pull_a_n_mm == pytest.approx(large.pull_b_n_mm, rel=1e-3)
    assert large.pull_a_n_mm > 0
    assert panel(1.0, "clamped").bow("1.03 kPa").bow_mm < large.bow_mm
    assert side.bow("1.03 kPa", rise="-20 K").bow_mm < large.bow_mm
    # A panel laid the other way has the same bow and the pulls change places.
    long, lying = panel(2.0, "simple"), rb.Panel(a="700 mm", b="1.4 m", thickness="1 mm", modulus="205 GPa", poisson=NU)
    assert long.bow("500 Pa").bow_mm == lying.bow("500 Pa").bow_mm
    assert long.bow("500 Pa").pull_a_n_mm == lying.bow("500 Pa").pull_b_n_mm


def test_a_curved_panel() -> None:
    roof = rb.Panel(a="1 m", b="300 mm", thickness="0.9 mm", radius="2 m", modulus="205 GPa", poisson=NU)
    curved = roof.curved_compression()
    assert (curved.low_mpa, curved.high_mpa) == pytest.approx((0.2 * 55.83, 0.6 * 55.83), rel=1e-3)
    assert curved.standing == "from memory"
    with pytest.raises(rb.InputError, match="radius"):
        roof.bow("100 Pa")


def test_the_sun_on_a_sheet() -> None:
    # 35 °C, 1000 W/m2, 17 W/m2K, 3.9 K to the sky: by hand.
    roof = rb.sol_air(air="35 degC", irradiance="1000 W/m2", absorptance=0.2)
    assert roof.temperature_deg_c == pytest.approx(35 + 200 / 17 - 3.9)
    surfaces = rb.catalogue_table("surface")
    assert surfaces.height == 18
    for name, share in zip(surfaces["name"], surfaces["absorptance"], strict=True):
        side = rb.sol_air(air="30 degC", irradiance="700 W/m2", surface=str(name), attitude="vertical")
        assert side.temperature_deg_c == pytest.approx(30 + share * 700 / 17)
    windy = rb.sol_air(air="35 degC", irradiance="1000 W/m2", absorptance=0.2, film="34 W/m2/K")
    assert windy.temperature_deg_c == pytest.approx(35 + 200 / 34 - 3.9)
    with pytest.raises(rb.InputError, match="white paint"):
        rb.sol_air(air="30 degC", irradiance="700 W/m2", surface="white paints")
    with pytest.raises(rb.InputError, match="absorptance"):
        rb.sol_air(air="30 degC", irradiance="700 W/m2", surface="white paint", absorptance=0.3)
    with pytest.raises(rb.InputError, match="surface"):
        rb.sol_air(air="30 degC", irradiance="700 W/m2")


WEB: dict[str, Any] = {
    "depth": "11.58 in",
    "spacing": "7 in",
    "upright_length": "9.875 in",
    "upright_area": "0.1443 in2",
    "upright_eccentricity": "0.251 in",
    "upright_gyration": "0.182 in",
    "fy": "60 ksi",
    "fu": "62 ksi",
    "flange_restraint": 0.93,
    "upright_restraint": 1.62,
}


def web(**change: Any) -> rb.Panel:
    entries = {"a": "9.875 in", "b": "7 in", "thickness": "0.1043 in", "modulus": "10600 ksi", "poisson": 0.32}
    return rb.Panel(**{**entries, **change})


def test_a_web_in_diagonal_tension() -> None:
    # NACA TN 2661, section 7, example 2 (through a secondary text): 0.2253 is the ratio of stresses at its k, 0.123.
    at = web().diagonal_tension("34.5 kip", **WEB)
    assert at.shear_mpa / 6.894757 == pytest.approx(28.56, rel=1e-3)
    assert at.k == pytest.approx(0.118, abs=2e-3)
    assert -at.upright_mpa / at.shear_mpa == pytest.approx(0.2253 * at.k / 0.123, rel=0.01)
    assert at.flange_mpa == 0
    # Flanges that give way turn the folds steeper.
    soft = web().diagonal_tension("34.5 kip", **WEB, flange_area="1 in2", c2=0.1)
    assert soft.flange_mpa < 0
    assert soft.angle_deg > at.angle_deg
    assert soft.web_mpa > at.web_mpa
    # Steel is not what was tested.
    steel = web(modulus="205 GPa").diagonal_tension("34.5 kip", **WEB)
    assert steel.standing == "assumed"
    assert "aluminium" in steel.source


@pytest.mark.parametrize(
    ("shear", "panel_change", "web_change", "field"),
    [
        ("34.5 kip", {}, {"upright_gyration": None}, "upright_gyration"),
        ("34.5 kip", {}, {"c2": 0.1}, "flange_area"),
        ("34.5 kip", {"b": "12 in"}, {"spacing": "11 in"}, "b"),
        ("34.5 kip", {"thickness": "0.15 in"}, {}, "depth"),
        ("80 kip", {}, {}, "shear"),
        ("34.5 kip", {"radius": "2 m"}, {}, "radius"),
        ("34.5 kip", {}, {"spacing": "2 in"}, "spacing"),
    ],
)
def test_webs_outside_the_tests(shear: str, panel_change: Any, web_change: Any, field: str) -> None:
    with pytest.raises(rb.InputError) as refused:
        web(**panel_change).diagonal_tension(shear, **{**WEB, **web_change})
    assert field in {problem.field for problem in refused.value.problems}


def test_dents_by_proportion() -> None:
    thick = panel(1.0, "simple").dent("0.8 mm", fy="230 MPa", other_fy="275 MPa")
    assert thick.load_ratio == pytest.approx(230 / 275 / 0.64)
    assert thick.stiffness_ratio == pytest.approx(1 / 0.8**3)


def test_quantity_objects_go_in() -> None:
    q = pint.UnitRegistry().Quantity
    own = rb.Panel(a=q(1, "m"), b=q(70, "cm"), thickness=q(1, "mm"), modulus=q(205, "GPa"))
    assert own == rb.Panel(a="1 m", b="700 mm", thickness="1 mm", modulus="205 GPa")
    assert own.heating(q(30, "delta_degC")) == own.heating("30 K")
    assert own.bow(q(0.5, "kPa")).bow_mm == pytest.approx(own.bow("500 Pa").bow_mm)


def test_all_problems_at_once() -> None:
    with pytest.raises(rb.InputError) as refused:
        rb.Panel(a="-1 m", b="700 mm", thickness="1 m", edges="welded", material="wood", expansion_um_m_k=1)
    assert {p.field for p in refused.value.problems} == {"a", "thickness", "edges", "material", "expansion_um_m_k"}
    with pytest.raises(rb.QuantityError) as unreadable:
        rb.Panel(a="1", b="1 kg", thickness="1 mm")
    assert len(unreadable.value.problems) == 2
    with pytest.raises(rb.InputError, match="poisson"):
        rb.Panel(a="1 m", b="1 m", thickness="1 mm", poisson=math.nan)


def answers() -> list[Any]:
    flat = panel(1.5, "clamped")
    roof = rb.Panel(a="1 m", b="300 mm", thickness="0.9 mm", radius="2 m")
    return [
        flat,
        roof,
        flat.compression(),
        flat.shear(),
        flat.biaxial(),
        roof.curved_compression(),
        flat.heating("3 K"),
        flat.heating("3 K", restraint="along a"),
        flat.bow("300 Pa", rise="-5 K"),
        flat.bow(),
        flat.frequency(areal_mass="9 kg/m2"),
        flat.dent("0.8 mm", fy="230 MPa", other_fy="275 MPa"),
        web().diagonal_tension("34.5 kip", **WEB),
        rb.sol_air(air="30 degC", irradiance="700 W/m2", surface="white paint"),
        rb.sol_air(air="30 degC", irradiance="700 W/m2", absorptance=0.5, attitude="vertical", film="20 W/m2/K"),
    ]


@pytest.mark.parametrize("value", answers(), ids=lambda value: type(value).__name__)
def test_values(value: Any) -> None:
    for other in (pickle.loads(pickle.dumps(value)), copy.deepcopy(value)):
        assert other == value
    assert json.loads(json.dumps(value.to_dict()))
    assert repr(value).startswith(f"{type(value).__name__}(")
    with pytest.raises(AttributeError):
        value.standing = "sure"
