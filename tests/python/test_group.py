"""Rivet groups, prying and suction as a user works with them. Laws and more sources are tested in Rust."""

import copy
import json
import math
import pickle
from collections.abc import Callable

import pint
import pytest

import raisedbody as rb

LINE = [("0 mm", "0 mm"), ("0 mm", "100 mm"), ("0 mm", "200 mm"), ("0 mm", "300 mm")]


@pytest.fixture
def line() -> rb.RivetGroup:
    """Four rivets in one line, 100 mm apart."""
    return rb.RivetGroup(places=LINE)


def test_four_rivets_in_one_line(line: rb.RivetGroup) -> None:
    # Bhandari, Design of Machine Elements, example 8.24: data and method in the public worked solutions
    # FOSSEE/Scilab-TBC-Uploads, 764/CH8; the forces by arithmetic from its data: 6250 N and 7500 N at right angles.
    forces = line.elastic(y="25 kN", at=("100 mm", "0 mm"))
    assert forces.centroid_mm == pytest.approx((0, 150))
    assert forces.moment_n_mm == pytest.approx(2.5e6)
    assert forces.worst in (0, 3)
    assert forces.worst_n == pytest.approx(9762.8, abs=0.05)
    table = forces.table
    assert table["index"].tolist() == [0, 1, 2, 3]
    assert table["y_mm"].tolist() == [0, 100, 200, 300]
    assert table["primary_y_n"].tolist() == pytest.approx([6250] * 4)
    assert table["secondary_x_n"].tolist() == pytest.approx([7500, 2500, -2500, -7500])
    assert table["resultant_n"][forces.worst] == forces.worst_n


def test_four_rivets_on_a_circle() -> None:
    # The same, example 8.26: 1250 N and 2500 N in one direction on the load's side.
    ring = rb.RivetGroup([("100 mm", "0 mm"), ("0 mm", "100 mm"), ("-100 mm", "0 mm"), ("0 mm", "-100 mm")])
    forces = ring.elastic(y="5 kN", at=("200 mm", "0 mm"))
    assert (forces.worst, forces.worst_n) == (0, pytest.approx(3750))
    assert repr(forces) == "<GroupForces of 4 rivets: 3750 N on rivet 0 at most>"


def test_larger_rivets_take_more() -> None:
    # Statics: 6 mm beside 3 mm has four times the area, so the centroid lies at a fifth of the distance from it.
    group = rb.RivetGroup([("0 mm", "0 mm"), ("100 mm", "0 mm")], diameters=["6 mm", "3 mm"])
    forces = group.elastic(y="1 kN", at=("20 mm", "0 mm"))
    assert forces.centroid_mm == pytest.approx((20, 0))
    assert forces.table["resultant_n"].tolist() == pytest.approx([800, 200])
    assert (group.diameters_mm, len(group)) == ((6, 3), 2)


def test_a_couple_is_one_of_its_forces_and_their_distance(line: rb.RivetGroup) -> None:
    turned = line.elastic(couple=("250 N", "200 mm"))
    assert turned.moment_n_mm == pytest.approx(50_000)
    assert line.elastic(couple=("-250 N", "200 mm")).moment_n_mm == pytest.approx(-50_000)
    # With a force through the centroid only the couple is a moment.
    both = line.elastic(x="900 N", at=("0 mm", "150 mm"), couple=("250 N", "200 mm"))
    assert both.moment_n_mm == pytest.approx(50_000)
    assert both.table["primary_x_n"].tolist() == pytest.approx([225] * 4)


def test_plastic_bounds_close_on_the_collapse_load(line: rb.RivetGroup) -> None:
    # By symmetry the centre of rotation lies on the line through the centroid, c beyond it from the load: the least of
    # cap sum(hypot(c, y)) / (P (e + c)) over c, found here by search.
    allows = (
        sum(10 * math.hypot(c / 50, y) for y in (-150, -50, 50, 150)) / (25 * (100 + c / 50)) for c in range(9999)
    )
    exact = min(allows)
    bounds = line.plastic(y="25 kN", at=("100 mm", "0 mm"), cap="10 kN")
    assert bounds.factor == pytest.approx(exact, rel=1e-5)
    assert bounds.factor <= bounds.factor_at_most == pytest.approx(exact, rel=1e-5)
    assert bounds.factor >= 10_000 / line.elastic(y="25 kN", at=("100 mm", "0 mm")).worst_n
    assert max(bounds.table["resultant_n"]) <= 10_000 * (1 + 1e-12)
    assert bounds == line.plastic(y="25 kN", at=("100 mm", "0 mm"), cap=["10 kN"] * 4)
    assert bounds.caps_n == (10_000,) * 4
    weak_end = line.plastic(y="25 kN", at=("100 mm", "0 mm"), cap=["5 kN", "10 kN", "10 kN", "10 kN"])
    assert weak_end.factor < bounds.factor


def test_the_docstrings_warn_of_brittle_rivets() -> None:
    for doc in (rb.PlasticBounds.__doc__, rb.RivetGroup.plastic.__doc__):
        assert doc is not None
        words = " ".join(doc.split())
        assert "presumes ductile rivets" in words
        assert "which is the default" in words


def test_quantities_from_objects(line: rb.RivetGroup) -> None:
    unit = pint.UnitRegistry()
    same = rb.RivetGroup([(0 * unit.mm, 10.0 * i * unit.cm) for i in range(4)])
    assert same == line
    forces = line.elastic(y="25 kN", at=("100 mm", "0 mm"))
    assert same.elastic(y=25 * unit.kilonewton, at=(10 * unit.cm, "0 mm")) == forces
    bounds = line.plastic(y="25 kN", at=("100 mm", "0 mm"), cap="10 kN")
    assert line.plastic(y="25 kN", at=("100 mm", "0 mm"), cap=10 * unit.kilonewton) == bounds
    assert line.plastic(y="25 kN", at=("100 mm", "0 mm"), cap=[10 * unit.kilonewton] * 4) == bounds
    assert rb.prying_ratio(1.5 * unit.cm, "10 mm") == pytest.approx(1.5)
    with pytest.raises(rb.QuantityError, match=r"places\[1\]\.x"):
        rb.RivetGroup([("0 mm", "0 mm"), (1 * unit.kg, "0 mm")])


@pytest.mark.parametrize("protocol", [2, pickle.HIGHEST_PROTOCOL])
def test_groups_are_values(protocol: int) -> None:
    group = rb.RivetGroup([("0 mm", "0 mm"), ("1/3 in", "100 mm")], diameters=["1/4 in", "4.8 mm"])
    load = {"x": "-1/3 lbf", "y": "200 lbf", "at": ("1/7 in", "-30 mm"), "couple": ("1/3 lbf", "1/7 in")}
    values = [
        group,
        rb.RivetGroup(LINE),
        group.elastic(**load),  # type: ignore[arg-type]
        group.elastic(couple=("1/3 lbf", "1/7 in")),
        group.plastic(**load, cap="3 kN"),  # type: ignore[arg-type]
        group.plastic(x="1 N", at=("0 mm", "0 mm"), cap=["3 kN", "700 lbf"]),
    ]
    for value in values:
        for other in (pickle.loads(pickle.dumps(value, protocol)), copy.copy(value), copy.deepcopy(value)):
            assert type(other) is type(value)
            assert other == value
        assert value != object()
        assert json.loads(json.dumps(value.to_dict()))
        assert type(value).__name__ in repr(value)
        with pytest.raises(AttributeError):
            value.table = None  # type: ignore[union-attr]
    assert eval(repr(group), {"RivetGroup": rb.RivetGroup}) == group
    assert group.elastic(**load).group == group  # type: ignore[arg-type]
    assert group.elastic(couple=("1 N", "1 mm")) != group.elastic(couple=("2 N", "1 mm"))


def test_dictionaries_hold_the_forces(line: rb.RivetGroup) -> None:
    forces = line.elastic(y="25 kN", at=("100 mm", "0 mm")).to_dict()
    assert forces["forces"][3]["primary_y_n"] == pytest.approx(6250)
    assert forces["worst_n"] == pytest.approx(9762.8, abs=0.05)
    assert line.plastic(y="1 kN", at=("0 mm", "0 mm"), cap="2 kN").to_dict()["factor"] == pytest.approx(8)


def test_prying() -> None:
    # Rigid bound, b'/a' with a' at most 1.25 b' (from memory); the numbers by arithmetic.
    assert rb.prying_ratio("15 mm", "10 mm") == pytest.approx(1.5)
    assert rb.prying_ratio(to_web="15 mm", to_edge="60 mm") == pytest.approx(0.8)


def test_suction() -> None:
    # Half a spacing at the end; inside, statics of continuous beams: 1.25 over two spans, 1.10 over three, 8/7 beyond.
    def inner(spans: int | None) -> float:
        return rb.suction_per_rivet_n(suction="1.2 kPa", rib_spacing="600 mm", pitch="150 mm", spans=spans)

    of_one_spacing_n = 0.0012 * 600 * 150
    assert inner(None) == pytest.approx(of_one_spacing_n / 2)
    for spans, factor in ((2, 1.25), (3, 1.10), (4, 8 / 7), (30, 8 / 7)):
        assert inner(spans) == pytest.approx(of_one_spacing_n * factor)


ONE = rb.RivetGroup([("0 mm", "0 mm")])
PAIR = rb.RivetGroup([("0 mm", "0 mm"), ("0 mm", "100 mm")])
ORIGIN = ("0 mm", "0 mm")


@pytest.mark.parametrize(
    ("call", "error", "field", "words"),
    [
        (lambda: rb.RivetGroup([]), rb.InputError, "places", "write the place of each rivet"),
        (lambda: rb.RivetGroup([ORIGIN, ("0 mm", "200 m")]), rb.InputError, "places[1].y", "200 m is out of range"),
        (lambda: rb.RivetGroup([ORIGIN, ORIGIN]), rb.InputError, "places[1]", "there already"),
        (lambda: rb.RivetGroup([("0 mm", 3)]), rb.QuantityError, "places[0].y", 'write "3 mm"'),
        (lambda: rb.RivetGroup([ORIGIN], diameters=["1 mm"]), rb.InputError, "diameters[0]", "1 mm is out of range"),
        (lambda: rb.RivetGroup([ORIGIN], diameters=[]), rb.InputError, "diameters", "one for each of 1 rivets"),
        (lambda: PAIR.elastic(), rb.InputError, "load", "write the force"),
        (lambda: PAIR.elastic(x="1 kN"), rb.InputError, "at", "a point on the line of the force"),
        (lambda: PAIR.elastic(x="1 mm", at=ORIGIN), rb.QuantityError, "x", "no unit of force"),
        (lambda: PAIR.elastic(y="1000000 kN", at=ORIGIN), rb.InputError, "y", "1000000 kN is out of range"),
        (lambda: PAIR.elastic(y="1 kN", at=("0 mm", "2000 m")), rb.InputError, "at", "is out of range"),
        (lambda: PAIR.elastic(couple=("1 kN", "1 kg")), rb.QuantityError, "couple.arm", "no unit of length"),
        (lambda: ONE.elastic(x="1 kN", at=("0 mm", "1 mm")), rb.InputError, "load", "add a second"),
        (lambda: PAIR.plastic(x="1 kN", at=ORIGIN, cap="-3 kN"), rb.InputError, "cap", "-3 kN is out of range"),
        (lambda: PAIR.plastic(x="1 kN", at=ORIGIN, cap=3000), rb.QuantityError, "cap", 'write "3000 N"'),
        (lambda: PAIR.plastic(x="1 kN", at=ORIGIN, cap=["3 kN", "0 N"]), rb.InputError, "cap[1]", "0 N is out of"),
        (lambda: PAIR.plastic(x="1 kN", at=ORIGIN, cap=["3 kN"]), rb.InputError, "cap", "one for each of 2 rivets"),
        (lambda: PAIR.plastic(x="0 N", at=ORIGIN, cap="3 kN"), rb.InputError, "load", "write the force"),
        (lambda: rb.prying_ratio("12 mm", "0 mm"), rb.InputError, "to_edge", "0 mm is out of range"),
        (lambda: rb.suction_per_rivet_n("1 MPa", "1 m", "1 m"), rb.InputError, "suction", "0 to 0.1 MPa"),
        (lambda: rb.suction_per_rivet_n("1 kPa", "1 m", "1 m", 1), rb.InputError, "spans", "2 or more"),
        (lambda: rb.suction_per_rivet_n("1 kPa", "1 m", "1 m", -2), rb.InputError, "spans", "-2 is out of range"),
    ],
)
def test_bad_input_is_named(call: Callable[[], object], error: type[rb.InputError], field: str, words: str) -> None:
    with pytest.raises(error) as caught:
        call()
    assert caught.value.field == field
    assert words in str(caught.value)
    assert len(caught.value.problems) == 1


def test_several_problems_come_at_once() -> None:
    with pytest.raises(rb.QuantityError) as caught:
        PAIR.plastic(x="1 kg", at=("0 mm", "1"), couple=("1 N", 2), cap=["1 N", "x"])  # type: ignore[arg-type]
    assert {p.field for p in caught.value.problems} == {"x", "at.y", "couple.arm", "cap[1]"}
    with pytest.raises(rb.InputError) as refused:
        PAIR.elastic(x="1000000 kN", at=("2000 m", "0 mm"))
    assert [p.field for p in refused.value.problems] == ["x", "at"]


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: rb.RivetGroup([ORIGIN, ("0 mm",)]), r"places\[1\]: a pair of length and length"),
        (lambda: rb.RivetGroup(["ab"]), r"places\[0\]: a pair"),
        (lambda: rb.RivetGroup([("0 mm", None)]), r"places\[0\]\.y: a length is text with its unit"),
        (lambda: rb.RivetGroup("ab"), r"a list is asked for, not one text; write \['ab'\]"),
        (lambda: PAIR.elastic(x="1 N", at="here"), "at: a pair of length and length"),
        (lambda: PAIR.elastic(couple=("1 N", "1 mm", "1 mm")), "couple: a pair of force and length"),
    ],
)
def test_things_of_another_type(call: Callable[[], object], words: str) -> None:
    with pytest.raises(TypeError, match=words):
        call()
