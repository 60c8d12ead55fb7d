"""Seams against their sheets and beside the joint rule for school buses, as a user works with them."""

import copy
import json
import pickle
from collections.abc import Callable
from typing import Any

import pint
import pytest

import raisedbody as rb

SHEET = rb.Sheet(thickness="1.2 mm", fu="360 MPa")
RIVET = rb.BlindRivet("6.4 mm", shear="3600 N", hole="6.5 mm")
TESTED = rb.Coupons(["3100 N"] * 3).characteristic_en_1993_1_3()  # invented


def seam(**other: Any) -> rb.Seam:
    """Two equal sheets of 1.2 mm, rivets of 3600 N in holes of 6.5 mm."""
    return rb.Seam(**{"outer": SHEET, "inner": SHEET, "rivet": RIVET, "pitch": "50 mm", "edge": "16 mm", **other})


def test_the_example_of_the_core() -> None:
    # 49 CFR 571.221, S5.1: 0.6 x 310 x 1.1 x (203 - 4 x 6.5) N asked; four rivets limited by bearing at 3257 N, EN
    # 1993-1-3 table 8.1, given. By hand.
    sheet = rb.Sheet(thickness="1.1 mm", fu="310 MPa")
    benchmark = seam(outer=sheet, inner=sheet).benchmark()
    assert (round(benchmark.demand_n), round(benchmark.rivets_n or 0)) == (36214, 13029)
    assert benchmark.demand_n == pytest.approx(0.6 * 310 * 1.1 * 177)
    assert benchmark.gross_demand_n == pytest.approx(0.6 * 310 * 1.1 * 203)
    assert benchmark.per_rivet_n == pytest.approx(3257, abs=0.5)
    assert (benchmark.limits, benchmark.beyond, benchmark.rivets_per_row) == ("bearing", (), 4)
    assert benchmark.net_section_n == pytest.approx(310 * 1.1 * 177)
    assert benchmark.capacity_n == benchmark.rivets_n
    assert benchmark.reached == pytest.approx(13029 / 36214, abs=1e-4)
    assert repr(benchmark) == "<SeamBenchmark: not assessed, reaches 36 %>"


def test_how_far_and_what_it_would_take() -> None:
    # Demand 45 878 N, given 4 x 3600 N; ten rivets at 20.3 mm, or four rows at this pitch, reach it. By hand.
    benchmark = seam().benchmark()
    assert benchmark.reached == pytest.approx(14_400 / 45_878.4)
    assert benchmark.pitch_needed_mm == pytest.approx(20.3)
    assert benchmark.rows_needed == 4
    assert benchmark.verdict == "not assessed"
    assert benchmark.table["verdict"].tolist() == ["not assessed", "not assessed", "passes", "passes"]
    assert set(benchmark.table["standing"]) == {"from memory"}
    assert "not a duty after conversion" in benchmark.table["reason"][0]
    assert "49 CFR 571.221 S5.1, benchmark" in benchmark.explain()
    assert "0.6 F_u t_min" in benchmark.explain()
    assert seam(pitch="20.3 mm").benchmark().table["verdict"][0] == "passes"
    assert seam(rows=4).benchmark().table["verdict"][0] == "passes"
    all_of_it = seam(pitch="20.3 mm", rows=2).benchmark()
    assert all_of_it.verdict == "passes"
    for doc in (rb.SeamBenchmark.__doc__, rb.Seam.benchmark.__doc__):
        assert doc is not None
        assert "as a benchmark, not as a duty" in " ".join(doc.split())


def test_efficiency_by_hand() -> None:
    # 3600 N at 50 mm in 432 N/mm; balanced at 6.5 mm + 3600 / 432.
    efficiency = seam().efficiency()
    assert efficiency.gross == pytest.approx(1 / 6)
    assert efficiency.net == pytest.approx(3600 / (432 * 43.5))
    assert efficiency.balanced_pitch_mm == pytest.approx(6.5 + 25 / 3)
    assert efficiency.seam == seam()
    assert repr(efficiency) == "<SeamEfficiency: gross 17 %, net 19 %>"


def test_beside_the_factory_seam() -> None:
    # 4 x 3600 N against 8 x 4000 N.
    stronger = rb.BlindRivet("6.4 mm", shear="4 kN", hole="6.5 mm")
    factory = seam(rivet=stronger, pitch="25 mm").benchmark()
    assert seam().benchmark().against(factory) == pytest.approx(0.45)
    assert seam().benchmark().against(seam(pitch="250 mm").benchmark()) is None


def test_sheets_count_with_their_least_thickness() -> None:
    # 18 gauge of zinc-coated sheet is 0.0516 in, at least 0.0466 in, coating included.
    ordered = rb.Sheet(gauge=18, coating="G90", grade="SS33")
    assert ordered.least_mm == pytest.approx(0.0466 * 25.4)
    assert ordered.to_dict()["least_mm"] == ordered.least_mm
    benchmark = seam(outer=ordered, inner=ordered, pitch="108 mm").benchmark()
    assert benchmark.demand_n == pytest.approx(0.6 * 310 * 0.0466 * 25.4 * 196.5)
    measured = rb.Sheet(thickness="1.25 mm", coating="G90", grade="SS33")
    benchmark = seam(outer=measured, inner=measured, pitch="108 mm").benchmark()
    assert benchmark.demand_n == pytest.approx(0.6 * 310 * 1.25 * 196.5)


def test_bearing_by_rule_or_by_test() -> None:
    # AISI S100 J4.3.1, nominal, equal sheets: 4.2 sqrt(t^3 d) Fu = 4988.7 N, by hand.
    strong = rb.BlindRivet("6.3 mm", shear="9 kN", hole="6.4 mm")
    aisi = seam(rivet=strong, bearing="AISI S100")
    assert (aisi.bearing, aisi.tested_n, aisi.beyond) == ("AISI S100", None, ())
    assert aisi.benchmark().limits == "bearing"
    assert aisi.benchmark().per_rivet_n == pytest.approx(4988.7, abs=0.1)
    assert seam().bearing == "EN 1993-1-3"
    assert seam().benchmark().limits == "rivet shear"
    coupons = rb.Coupons(["3100 N"] * 3)  # invented, without scatter
    result = coupons.characteristic_en_1993_1_3(0.9)
    tested = seam(tested=result)
    assert (tested.bearing, tested.tested_n) == (None, result.value_n)
    assert (tested.benchmark().limits, tested.benchmark().per_rivet_n) == ("tested lap", result.value_n)


def test_beyond_the_bearing_rule_numbers_are_withdrawn() -> None:
    # EN 1993-1-3 8.3(11), from memory: the hole no more than 0.1 mm above the rivet; 17/64 in is 6.75 mm.
    wide = rb.BlindRivet("6.4 mm", shear="3600 N", hole="17/64 in")
    broken = seam(rivet=wide)
    assert broken.beyond == ("hole",)
    efficiency = broken.efficiency()
    assert (efficiency.gross, efficiency.net, efficiency.balanced_pitch_mm) == (None, None, None)
    benchmark = broken.benchmark()
    assert (benchmark.beyond, benchmark.verdict) == (("hole",), "outside the rule's range")
    withdrawn = (benchmark.per_rivet_n, benchmark.limits, benchmark.rivets_n, benchmark.capacity_n, benchmark.reached)
    assert withdrawn == (None,) * 5
    assert (benchmark.pitch_needed_mm, benchmark.rows_needed) == (None, None)
    assert benchmark.demand_n == pytest.approx(259.2 * (203 - 4 * 6.746875))
    assert benchmark.against(seam().benchmark()) is None
    assert seam().benchmark().against(benchmark) is None
    assert repr(benchmark) == "<SeamBenchmark: outside the rule's range, reaches None>"
    # A lap that was pulled answers where the rule does not.
    tested = rb.Coupons(["3500 N"] * 3).characteristic_en_1993_1_3(0.9)
    assert seam(rivet=wide, tested=tested).benchmark().per_rivet_n == pytest.approx(0.9 * 3500)


def test_quantities_from_objects() -> None:
    unit = pint.UnitRegistry()
    assert seam(pitch=5.0 * unit.cm, edge=16 * unit.mm) == seam()
    with pytest.raises(rb.QuantityError, match="edge"):
        seam(edge=5 * unit.kg)


@pytest.mark.parametrize("protocol", [2, pickle.HIGHEST_PROTOCOL])
def test_seams_are_values(protocol: int) -> None:
    plain = seam()
    odd = seam(pitch="4 1/3 in", rows=2, bearing="AISI S100")
    tested = seam(tested=rb.Coupons(["700 lbf"] * 3).characteristic_en_1993_1_3())
    for value in (plain, odd, tested, plain.efficiency(), odd.efficiency(), plain.benchmark(), tested.benchmark()):
        for other in (pickle.loads(pickle.dumps(value, protocol)), copy.copy(value), copy.deepcopy(value)):
            assert type(other) is type(value)
            assert other == value
        assert value != object()
        assert json.loads(json.dumps(value.to_dict()))
        assert type(value).__name__ in repr(value)
        with pytest.raises(AttributeError):
            value.rows = 3  # type: ignore[misc, union-attr]
    names = {"Seam": rb.Seam, "Sheet": rb.Sheet, "BlindRivet": rb.BlindRivet, "Coupons": rb.Coupons}
    for value in (plain, odd, tested):
        assert eval(repr(value), names) == value
    assert plain != odd
    assert (plain.outer, plain.inner, plain.rivet, odd.rows) == (SHEET, SHEET, RIVET, 2)
    assert (plain.pitch_mm, plain.edge_mm) == (50, 16)
    assert plain.benchmark().to_dict()["checks"][2]["verdict"] == "passes"
    assert plain.benchmark().seam == plain


@pytest.mark.parametrize(
    ("call", "error", "field", "words"),
    [
        (lambda: seam(outer=rb.Sheet(gauge=18, grade="CS-B")), rb.InputError, "outer.fu", "certificate or coupon"),
        (lambda: seam(inner=rb.Sheet(gauge=16, grade="5052-H32")), rb.InputError, "inner.thickness", "measured"),
        (lambda: seam(rivet=rb.BlindRivet("6.4 mm", hole="6.5 mm")), rb.InputError, "rivet.shear", '"3600 N"'),
        (lambda: seam(bearing="AISI S10"), rb.InputError, "bearing", 'did you mean "AISI S100"'),
        (lambda: seam(bearing="AISI S100", tested=TESTED), rb.InputError, "bearing", "give one of them"),
        (lambda: seam(tested=TESTED.design()), rb.InputError, "tested", "not a characteristic value"),
        (lambda: seam(rows=0), rb.InputError, "rows", "1 to 10"),
        (lambda: seam(rows=-1), rb.InputError, "rows", "-1 is out of range"),
        (lambda: seam(pitch="6.5 mm"), rb.InputError, "pitch", "run into each other"),
        (lambda: seam(pitch="2 m"), rb.InputError, "pitch", "2 m is out of range"),
        (lambda: seam(edge="5 kg"), rb.QuantityError, "edge", "no unit of length"),
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
        seam(
            outer=rb.Sheet(gauge=18, grade="CS-B"),
            inner=rb.Sheet(gauge=16, grade="5052-H32"),
            rivet=rb.BlindRivet("6.4 mm", hole="6.5 mm"),
            bearing="AISC",
        )
    assert [p.field for p in caught.value.problems] == ["outer.fu", "inner.thickness", "rivet.shear", "bearing"]
    with pytest.raises(rb.InputError) as refused:
        seam(pitch="2 m", edge="0 mm", rows=11)
    assert [p.field for p in refused.value.problems] == ["pitch", "edge", "rows"]
    with pytest.raises(TypeError, match="Sheet"):
        seam(outer="18 ga")
