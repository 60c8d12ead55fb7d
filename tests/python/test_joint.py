"""Sheets, rivets and laps as a user works with them. The numbers themselves are checked in Rust."""

import pint
import pytest

import raisedbody as rb


def test_report_says_what_carries_what(lap: rb.Lap) -> None:
    report = lap.check(shear="900 N", tension="150 N", method="EN 1993-1-3")
    bearing = next(c for c in report.checks if c.name == "bearing")
    assert bearing.capacity_n == pytest.approx(2764.8)  # EN 1993-1-3 Table 8.1, worked by hand: fu e1 t / (1.2 gM2)
    assert bearing.demand_n == 900
    assert bearing.utilisation == pytest.approx(900 / 2764.8)
    assert bearing.clause == "EN 1993-1-3:2006 Table 8.1"
    assert (bearing.verdict, bearing.level, bearing.standing) == ("passes", "design", "from memory")
    assert report.verdict == "passes"
    assert report.utilisation >= bearing.utilisation
    assert report.governing in report.checks
    assert report[0] == report.checks[0]
    assert len(report) == len(report.checks)
    assert "F_b,Rd" in bearing.explain()
    assert bearing.explain() in report.explain()
    assert "passes" in report._repr_html_()
    assert report.table["name"][0] == "bearing"
    assert report.to_dict()["checks"][0]["demand"] == 900
    with pytest.raises(IndexError):
        report[99]


def test_methods_have_their_own_levels(lap: rb.Lap) -> None:
    quarter = rb.BlindRivet("1/4 in", shear="6 kN", tension="5 kN", head="1/2 in", hole="17/64 in")
    lap = rb.Lap(outer=lap.outer, inner=lap.inner, rivet=quarter, pitch="4 1/4 in", edge="5/8 in")
    en = lap.check(shear="300 N")
    aisi = lap.check(shear="300 N", method="AISI S100")
    assert en.verdict == "outside the rule's range"
    assert en.utilisation is None
    assert en.checks[0].capacity_n is None, "a number outside the range is withdrawn"
    assert en.governing.name == "hole"
    assert "6.45" in en.governing.reason
    assert aisi.verdict == "passes"
    assert {c.level for c in aisi.checks} == {"allowable", "as stated"}


def test_line_loads_are_carried_pitch_by_pitch(lap: rb.Lap) -> None:
    assert lap.check(shear="1.9 N/mm").shear_n == pytest.approx(1.9 * 50)


def test_quantities_from_objects(lap: rb.Lap) -> None:
    unit = pint.UnitRegistry()
    same = rb.Lap(outer=lap.outer, inner=lap.inner, rivet=lap.rivet, pitch=5.0 * unit.cm, edge=unit.Quantity(9.6, "mm"))
    assert same.pitch_mm == pytest.approx(50)
    assert same.check(shear=0.9 * unit.kilonewton).shear_n == pytest.approx(900)
    with pytest.raises(rb.QuantityError, match="pitch"):
        rb.Lap(outer=lap.outer, inner=lap.inner, rivet=lap.rivet, pitch=5 * unit.kg, edge="9.6 mm")


def test_commercial_steel_leaves_strength_open(lap: rb.Lap) -> None:
    sheet = rb.Sheet(gauge=18, coating="G90", grade="CS-B")
    assert sheet.fu_mpa is None
    open_lap = rb.Lap(outer=sheet, inner=sheet, rivet=lap.rivet, pitch="100 mm", edge="15 mm")
    assert open_lap.check(shear="300 N").verdict == "not assessed"
    certified = rb.Sheet(gauge=18, coating="G90", grade="CS-B", fu="330 MPa")
    assert (
        rb.Lap(outer=certified, inner=certified, rivet=lap.rivet, pitch="100 mm", edge="15 mm").check().utilisation == 0
    )


def test_representations_read_like_calls(lap: rb.Lap) -> None:
    names = {"Sheet": rb.Sheet, "BlindRivet": rb.BlindRivet, "Lap": rb.Lap}
    for thing in (lap.outer, lap.rivet, lap):
        assert eval(repr(thing), names) == thing


@pytest.mark.parametrize(
    ("call", "error", "field", "words"),
    [
        (lambda: rb.Sheet(gauge=18, coating="A41"), rb.InputError, "coating", 'did you mean "A40"'),
        (lambda: rb.Sheet(gauge=98), rb.InputError, "gauge", "24"),
        (lambda: rb.Sheet(), rb.InputError, "gauge", "write gauge = 18"),
        (lambda: rb.Sheet(gauge=18, thickness="1.2 mm"), rb.InputError, "thickness", "give one of them"),
        (lambda: rb.Sheet(thickness="-1.2 mm"), rb.InputError, "thickness", "-1.2 mm is out of range"),
        (lambda: rb.Sheet(thickness="1.2 kg"), rb.QuantityError, "thickness", "no unit of length"),
        (lambda: rb.Sheet(thickness=1.2), rb.QuantityError, "thickness", 'write "1.2 mm"'),
        (lambda: rb.Sheet(gauge=18, grade="SS33", fy="90 ksi", fu="45 ksi"), rb.InputError, "fy", "which is which"),
        (lambda: rb.BlindRivet("6.4 mm", product="ISO 15967"), rb.InputError, "product", "ISO 1597"),
        (lambda: rb.BlindRivet("6.1 mm", product="ISO 15976"), rb.InputError, "product", "6.4 mm"),
        (lambda: rb.BlindRivet("6.4 mm", shear="6 kN"), rb.InputError, "hole", "write the drilled hole"),
        (lambda: rb.BlindRivet("6.4 mm", hole="6 mm"), rb.InputError, "hole", "out of range"),
        (lambda: rb.catalogue_table("rivets"), rb.InputError, "name", '"rivet"'),
        (lambda: rb.parse("4 1/4", "length"), rb.QuantityError, "text", "no unit"),
        (lambda: rb.parse("4 in", "lenght"), rb.InputError, "kind", '"length"'),
        (lambda: rb.inches(float("nan")), rb.InputError, "length_mm", "finite"),
    ],
)
def test_bad_input_is_named(call, error, field, words) -> None:
    with pytest.raises(error) as caught:
        call()
    assert isinstance(caught.value, ValueError)
    assert caught.value.field == field
    assert words in str(caught.value)


def test_several_problems_come_at_once(lap: rb.Lap) -> None:
    with pytest.raises(rb.InputError) as caught:
        rb.Lap(outer=lap.outer, inner=lap.inner, rivet=lap.rivet, pitch="9 m", edge="0 mm")
    assert [(p.field, p.value) for p in caught.value.problems] == [("pitch", "9 m"), ("edge", "0 mm")]
    with pytest.raises(rb.InputError, match="method"):
        lap.check(shear="1 N", method="EN 1993-1-8")
    with pytest.raises(rb.InputError, match="-5 N"):
        lap.check(shear="-5 N")
    with pytest.raises(TypeError, match="pitch"):
        rb.Lap(outer=lap.outer, inner=lap.inner, rivet=lap.rivet, pitch=[1], edge="9 mm")  # type: ignore[arg-type]
