"""Bends, springback, rolls, cones and wrapped blanks as a user works with them, against NumPy and SciPy.

Published values and laws are tested in Rust.
"""

import copy
import json
import math
import pickle
from collections.abc import Callable

import numpy as np
import pint
import pytest
from scipy.integrate import quad
from scipy.optimize import brentq

import raisedbody as rb

SQUARE = rb.Corner("150 mm", "90 deg")


def test_a_bend_with_k_out_of_the_table() -> None:
    # Machinery's Handbook, 26th edition, restated by vedge.org/kfac.html: R .120, t .060 in, K .463, BA 0.2321 in.
    bend = rb.Bend(thickness="0.060 in", radius="0.120 in", angle="90 deg")
    assert bend.k == 0.463
    assert bend.allowance_mm / 25.4 == pytest.approx(0.2321, abs=5e-5)
    assert bend.setback_mm == pytest.approx(25.4 * 0.180)
    assert bend.deduction_mm == pytest.approx(2 * bend.setback_mm - bend.allowance_mm)
    assert bend.standing == "read in the source"
    assert "Machinery's Handbook" in bend.source
    # The other printed example, with a K of its own: 0.0439 in.
    own = rb.Bend(thickness="0.024 in", radius="0.020 in", angle="90 deg", k=0.33)
    assert own.allowance_mm / 25.4 == pytest.approx(0.0439, abs=5e-5)
    assert own.standing == "given by the user"


def test_the_tables_of_the_catalogue() -> None:
    table = rb.catalogue_table("k_factor")
    assert len(table["k"]) == 12
    assert set(table["standing"]) == {"read in the source"}
    assert set(rb.catalogue_table("bend_limit")["standing"]) == {"from memory"}
    assert rb.catalogue_table("k_rule")["stands_in"].sum() == 1


def test_developed_length_against_quadrature() -> None:
    # The neutral axis of a chain of straight runs and arcs, its length integrated numerically.
    def speed(s: float) -> float:
        return 150 + 0.5 * 1.2

    arc, _ = quad(speed, 0, math.pi / 2)
    cap = rb.CapBlank(
        ["200 mm", SQUARE, "2 m", SQUARE, "200 mm"], thickness="1.2 mm", height="400 mm", tape_error="1 mm"
    )
    assert cap.length_mm == pytest.approx((2400 + 2 * arc,) * 2)
    marks = cap.marks
    np.testing.assert_allclose(marks["bottom_mm"], [200, 200 + arc, 2200 + arc, 2200 + 2 * arc])
    assert marks["place"].tolist() == ["start", "end"] * 2
    assert marks["bottom_inches"].tolist() == [rb.inches(mm) for mm in marks["bottom_mm"]]
    assert (marks["bottom_error_mm"] <= 1 + 25.4 / 128).all()
    assert marks["chained_error_mm"].tolist() == [1, 2, 3, 4]
    assert cap.out_of_square_mm == pytest.approx(0, abs=1e-9)


def test_springback_against_a_root_finder() -> None:
    sheet = rb.Springback(thickness="0.9 mm", fy="230 MPa", modulus="205 GPa", poisson=None)

    def left(loaded: float) -> float:
        x = loaded * 230 / (205e3 * 0.9)
        return loaded / (4 * x**3 - 3 * x + 1)

    for wanted in (30, 150, 600, 3000):
        root = brentq(lambda r, wanted=wanted: left(r) - wanted, 1, 0.499999 * 205e3 * 0.9 / 230)
        assert sheet.loaded_mm(f"{wanted} mm") == pytest.approx(root, rel=1e-9)
    assert sheet.loaded_mm("150 mm") == pytest.approx(96.77, abs=5e-3)
    wide = rb.Springback(thickness="0.9 mm", fy="230 MPa", modulus="205 GPa")
    assert wide.loaded_mm("150 mm") < 150
    assert wide.final_mm("96.77 mm") != pytest.approx(150, rel=1e-3)


def test_setting_the_rolls() -> None:
    rolls = rb.ThreeRoll(lower_radius="25 mm", spacing="70 mm", top_radius="30 mm")
    sheet = rb.Springback(thickness="0.9 mm", fy="230 MPa", modulus="205 GPa", poisson=None)
    setting = rolls.setting("150 mm", thickness="0.9 mm", springback=sheet)
    assert setting.loaded_mm == sheet.loaded_mm("150 mm")
    assert setting.travel_mm == rolls.travel_mm(f"{setting.loaded_mm!r} mm", "0.9 mm")
    assert setting.flat_mm == 35

    def left(travel: float) -> float:
        return sheet.final_mm(f"{rolls.radius_mm(f'{travel!r} mm', '0.9 mm')!r} mm")

    slope = (left(setting.travel_mm - 1e-4) - left(setting.travel_mm + 1e-4)) / 2e-4
    assert setting.radius_per_tenth_mm == pytest.approx(0.1 * slope, rel=1e-4)
    assert setting.travel_per_mm == pytest.approx(1 / slope, rel=1e-4)
    stronger = rb.Springback(thickness="0.9 mm", fy="231 MPa", modulus="205 GPa", poisson=None)
    more = stronger.final_mm(f"{setting.loaded_mm!r} mm") - 150
    assert setting.radius_per_mpa_mm == pytest.approx(more, rel=0.02)


def test_a_cone_keeps_its_lengths() -> None:
    cone = rb.Frustum(bottom_radius="300 mm", top_radius="200 mm", height="500 mm", angle="90 deg")
    points = cone.ordinates(1000)
    bottom = np.column_stack([points["bottom_x_mm"], points["bottom_y_mm"]])
    top = np.column_stack([points["top_x_mm"], points["top_y_mm"]])

    def along(edge: np.ndarray) -> float:
        return float(np.hypot(*np.diff(edge, axis=0).T).sum())

    assert along(bottom) == pytest.approx(300 * math.pi / 2, rel=1e-6)
    assert along(top) == pytest.approx(200 * math.pi / 2, rel=1e-6)
    np.testing.assert_allclose(np.hypot(*(bottom - top).T), cone.slant_mm)
    assert (bottom[0, 1], bottom[-1, 1]) == pytest.approx((0, 0), abs=1e-9)


def unrolled(lower: np.ndarray, upper: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """Lays a strip of triangles between two curves in space flat, one triangle after another, by its sides alone."""

    def third(a: np.ndarray, b: np.ndarray, to_a: float, to_b: float) -> np.ndarray:
        # The point to the right of the way from a to b.
        base = np.linalg.norm(b - a)
        along = (base**2 + to_a**2 - to_b**2) / (2 * base)
        off = math.sqrt(max(to_a**2 - along**2, 0))
        way = (b - a) / base
        return a + along * way + off * np.array([way[1], -way[0]])

    def gap(a: np.ndarray, b: np.ndarray) -> float:
        return float(np.linalg.norm(a - b))

    flat_lower, flat_upper = [np.zeros(2)], [np.array([0, gap(lower[0], upper[0])])]
    for i in range(len(lower) - 1):
        a, b = flat_lower[-1], flat_upper[-1]
        following = third(a, b, gap(lower[i + 1], lower[i]), gap(lower[i + 1], upper[i]))
        flat_lower.append(following)
        flat_upper.append(third(following, b, gap(upper[i + 1], lower[i + 1]), gap(upper[i + 1], upper[i])))
    return np.array(flat_lower), np.array(flat_upper)


def wrapped(leans: list[float], corners: list[tuple[float, float]], legs: list[float], height: float) -> tuple:
    """Both edges of a cap in space: square corners, faces by their supports, sections circular and level."""
    lower, upper = [], []
    # Faces turn by 90 degrees in plan: outward normals and ways along.
    directions = [
        (np.array([math.cos(a), math.sin(a)]), np.array([-math.sin(a), math.cos(a)]))
        for a in np.arange(3) * math.pi / 2
    ]
    at = np.zeros(2)
    lower.append(at)
    upper.append(at + leans[0] * directions[0][0])
    for i, (bottom, top) in enumerate(corners):
        normal, way = directions[i]
        at = at + legs[i] * way
        middle = at - bottom * normal
        # The upper circle touches both faces moved out by their leans.
        shift = (leans[i] - (top - bottom)) * normal + (leans[i + 1] - (top - bottom)) * directions[i + 1][0]
        for angle in np.linspace(0, math.pi / 2, 4001):
            out = math.cos(angle) * normal + math.sin(angle) * way
            lower.append(middle + bottom * out)
            upper.append(middle + shift + top * out)
        at = lower[-1]
    normal, way = directions[len(corners)]
    end = at + legs[-1] * way
    lower.append(end)
    upper.append(end + leans[len(corners)] * normal)
    tall = [
        np.column_stack([edge, np.full(len(edge), z)]) for edge, z in ((np.array(lower), 0), (np.array(upper), height))
    ]
    return tuple(tall)


@pytest.mark.parametrize(
    ("leans", "radii"),
    [
        ([0, 0, 0], [(150, 160), (150, 160)]),
        ([0, 0, 0], [(160, 120), (140, 150)]),
        ([-20, 0, -20], [(150, 150), (150, 153.175)]),
        ([-20, 5, -15], [(150, 190), (170, 140)]),
        ([30, 30, 30], [(150, 180), (150, 180)]),
    ],
)
def test_the_flat_against_numerical_unrolling(leans: list[float], radii: list[tuple[float, float]]) -> None:
    height, legs = 400.0, [300.0, 900.0, 250.0]
    # Radii of the neutral axis: 0.5 of 1.2 mm beyond the inside.
    corners = [(bottom + 0.6, top + 0.6) for bottom, top in radii]
    lower, upper = unrolled(*wrapped(leans, corners, legs, height))
    runs: list[str | rb.Corner] = []
    for leg, (bottom, top) in zip(legs, radii, strict=False):
        runs += [f"{leg} mm", rb.Corner(f"{bottom} mm", "90 deg", top_radius=f"{top} mm")]
    runs.append(f"{legs[-1]} mm")
    cap = rb.CapBlank(
        runs,
        thickness="1.2 mm",
        height=f"{height} mm",
        tape_error="1 mm",
        k=0.5,
        leans=[f"{lean} mm" for lean in leans],
    )
    lines = cap.lines
    for x, y, edge in (("bottom_x_mm", "bottom_y_mm", lower), ("top_x_mm", "top_y_mm", upper)):
        assert (lines[x][-1], lines[y][-1]) == pytest.approx(tuple(edge[-1]), abs=2e-3)
        # Start of the first bend.
        assert (lines[x][1], lines[y][1]) == pytest.approx(tuple(edge[1]), abs=2e-3)
    assert cap.length_mm[0] == pytest.approx(np.linalg.norm(np.diff(lower, axis=0), axis=1).sum(), rel=1e-6)
    assert cap.length_mm[1] == pytest.approx(np.linalg.norm(np.diff(upper, axis=0), axis=1).sum(), rel=1e-6)
    assert cap.out_of_square_mm == pytest.approx(lower[-1, 0] - upper[-1, 0], abs=3e-3)


def test_the_eighth_of_an_inch() -> None:
    # By hand: (2 tan 45° - π/2) / 8 = 0.0537 in for each corner.
    corner = rb.Corner("6 in", "90 deg", top_radius="6 1/8 in")
    cap = rb.CapBlank(["8 in", corner, "80 in", corner, "8 in"], thickness="1.2 mm", height="16 in", tape_error="0 mm")
    wedge = 2 * (2 - math.pi / 2) * 25.4 / 8
    assert cap.out_of_square_mm == pytest.approx(wedge, abs=2e-3)
    lower, upper = cap.trim_mm
    assert (min(lower, upper), max(lower, upper)) == pytest.approx((0, wedge), abs=2e-3)
    # Left and right unequal: nothing out of square, but a sheet rolled to one radius does not end where it should.
    other = rb.Corner("6 1/8 in", "90 deg")
    unequal = rb.CapBlank(
        ["8 in", rb.Corner("6 in", "90 deg"), "80 in", other, "8 in"],
        thickness="1.2 mm",
        height="16 in",
        tape_error="0 mm",
    )
    assert unequal.out_of_square_mm == pytest.approx(0, abs=1e-9)
    assert unequal.one_radius_past_mm == pytest.approx((wedge / 2, wedge / 2))


def values() -> list[object]:
    rolls = rb.ThreeRoll(lower_radius="1 in", spacing="3 in", top_radius="1 1/3 in")
    sheet = rb.Springback(thickness="1/30 in", fy="33 ksi", modulus="29500 ksi")
    return [
        rb.Bend(thickness="1/20 in", radius="1/10 in", angle="88.5 deg"),
        rb.Bend(thickness="1.2 mm", radius="8 mm", angle="1.1 rad", k=0.45, material="aluminium 5052"),
        sheet,
        rb.Springback(thickness="1 mm", fy="230 MPa", modulus="205 GPa", poisson=None),
        rolls,
        rolls.setting("7 in", thickness="1/20 in", springback=sheet),
        rb.Frustum(bottom_radius="300 mm", top_radius="200 mm", height="500 mm", angle="360 deg"),
        rb.CapBlank(
            ["1/3 in", rb.Corner("6 in", "1.2 rad", top_radius="6.1 in"), "9 in"],
            thickness="1.2 mm",
            height="1 ft",
            tape_error="1/32 in",
            leans=["-3 mm", "0 mm"],
        ),
    ]


@pytest.mark.parametrize("protocol", [2, pickle.HIGHEST_PROTOCOL])
def test_values_keep(protocol: int) -> None:
    for value in values():
        for other in (pickle.loads(pickle.dumps(value, protocol)), copy.copy(value), copy.deepcopy(value)):
            assert type(other) is type(value)
            assert other == value
        assert json.loads(json.dumps(value.to_dict()))  # type: ignore[attr-defined]
        assert type(value).__name__ in repr(value)
        if not isinstance(value, rb.RollSetting):
            assert eval(repr(value), vars(rb)) == value
    assert pickle.loads(pickle.dumps(SQUARE)) == SQUARE
    assert eval(repr(SQUARE), vars(rb)) == SQUARE


def test_quantities_from_objects() -> None:
    unit = pint.UnitRegistry()
    bend = rb.Bend(thickness=1.2 * unit.mm, radius=15 * unit.cm, angle=90 * unit.degree)
    assert (bend.k, bend.standing) == (0.5, "from memory")


ROLLS = rb.ThreeRoll(lower_radius="25 mm", spacing="70 mm", top_radius="30 mm")
STRIP = rb.Springback(thickness="0.9 mm", fy="250 MPa", modulus="205 GPa", poisson=None)


def blank(*runs: str | rb.Corner, **changes: object) -> rb.CapBlank:
    given: dict[str, object] = {"thickness": "1.2 mm", "height": "400 mm", "tape_error": "1 mm", **changes}
    return rb.CapBlank(runs, **given)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("call", "error", "field", "words"),
    [
        (lambda: rb.Bend(thickness="1.3 mm", radius="10 mm", angle="90 deg"), rb.InputError, "k", "give K"),
        (lambda: rb.Bend(thickness="1.3 mm", radius="10 mm", angle="90 deg", k=0.7), rb.InputError, "k", "0.2 to 0.5"),
        (lambda: rb.Bend(thickness="1.3 mm", radius="10", angle="90 deg"), rb.QuantityError, "radius", "no unit"),
        (lambda: rb.Bend(thickness="9 mm", radius="9 m", angle="9 deg"), rb.InputError, "thickness", "9 mm is out of"),
        (
            lambda: rb.Bend(thickness="1 mm", radius="9 m", angle="9 deg", material="carbon stel"),
            rb.InputError,
            "material",
            "carbon steel",
        ),
        (lambda: STRIP.final_mm("400 mm"), rb.InputError, "radius", "springs back flat"),
        (lambda: STRIP.loaded_mm("0 mm"), rb.InputError, "radius", "0 mm is out of range"),
        (lambda: ROLLS.travel_mm("30 mm", "1 mm"), rb.InputError, "radius", "top roll"),
        (lambda: ROLLS.radius_mm("25 mm", "1 mm"), rb.InputError, "travel", "top roll"),
        (lambda: ROLLS.radius_mm("0 mm", "1 mm"), rb.InputError, "travel", "0 mm is out of range"),
        (
            lambda: rb.Frustum(bottom_radius="1 m", top_radius="1 m", height="1 m", angle="90 deg"),
            rb.InputError,
            "top_radius",
            "a cylinder",
        ),
        (lambda: blank("1 m", SQUARE), rb.InputError, "runs", "in turn"),
        (lambda: blank(SQUARE), rb.InputError, "runs", "in turn"),
        (lambda: blank("1 m", SQUARE, "-1 mm"), rb.InputError, "runs[2]", "-1 mm is out of range"),
        (lambda: blank("1 m", rb.Corner("9 mm", "90 deg"), "1 m"), rb.InputError, "runs[1].k", "give K"),
        (
            lambda: blank("1 m", rb.Corner("0 mm", "90 deg"), "1 m", k=0.5),
            rb.InputError,
            "runs[1].radius",
            "out of range",
        ),
        (lambda: blank("1 m", SQUARE, "1 m", leans=["1 mm"]), rb.InputError, "leans", "one for each of 2"),
        (lambda: blank("1 m", SQUARE, "x"), rb.QuantityError, "runs[2]", "cannot read"),
        (lambda: rb.least_bend_radius_mm("1 mm", "0 %"), rb.InputError, "reduction", "out of range"),
    ],
)
def test_bad_input_is_named(call: Callable[[], object], error: type[rb.InputError], field: str, words: str) -> None:
    with pytest.raises(error) as caught:
        call()
    assert caught.value.field == field
    assert words in str(caught.value)
    assert len(caught.value.problems) == 1


def test_several_problems_come_at_once() -> None:
    with pytest.raises(rb.InputError) as caught:
        blank("30 m", rb.Corner("9 m", "179 deg"), "1 m", k=0.5)
    assert [p.field for p in caught.value.problems] == [
        "runs[0]",
        "runs[1].radius",
        "runs[1].angle",
    ]
    with pytest.raises(rb.QuantityError) as unread:
        rb.ThreeRoll(lower_radius="1", spacing="2", top_radius="3 kg")
    assert len(unread.value.problems) == 3


@pytest.fixture
def caps(build: rb.Evaluation) -> rb.EndCaps:
    assert build.end_caps is not None
    return build.end_caps


def test_end_caps_of_a_plan(caps: rb.EndCaps, build: rb.Evaluation) -> None:
    pieces, corners, marks = caps.pieces, caps.corners, caps.marks
    assert set(marks["piece"]) == set(pieces["piece"]) == set(corners["piece"])
    assert (corners["roll_to_mm"] < corners["radius_mm"]).all()
    assert (pieces["along_mm"] <= 3048).all()
    # The rolls again by hand from the table.
    rolls = rb.ThreeRoll(lower_radius="1 1/2 in", spacing="5 in", top_radius="1 1/2 in")
    sheet = rb.Sheet(gauge=18, coating="A40", grade="SS33")
    first = next(iter(corners.rows()))
    travel = rolls.travel_mm(f"{first['roll_to_mm']!r} mm", f"{sheet.thickness_mm!r} mm")
    assert first["travel_mm"] == pytest.approx(travel)
    # A mark is nowhere farther than its own sheet reaches.
    reach = dict(zip(pieces["piece"], pieces["along_mm"], strict=True))
    assert all(row["bottom_mm"] < reach[row["piece"]] for row in marks.rows())
    assert len(caps.notes) >= 3
    assert "rear cap" in str(caps)
    assert "rear cap" in caps._repr_html_()


def test_end_caps_keep(caps: rb.EndCaps, build: rb.Evaluation, plan: rb.Plan) -> None:
    assert pickle.loads(pickle.dumps(caps)) == caps
    assert build.to_dict()["end_caps"] == caps.to_dict()
    assert json.loads(json.dumps(caps.to_dict()))["pieces"]
    other = plan.replace(end_caps={"tape_error": "2 mm"}).evaluate().end_caps
    assert other is not None
    assert (other.marks["bottom_error_mm"] > caps.marks["bottom_error_mm"]).all()
    assert rb.Plan.read("examples/workshop_bus.toml").evaluate().end_caps is None
    with pytest.raises(rb.InputError) as caught:
        plan.replace(end_caps={"rear": {"left": {"radius": "30 in"}}})
    assert caught.value.field == "end_caps.rear.left.radius"
