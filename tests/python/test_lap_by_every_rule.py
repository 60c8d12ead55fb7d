"""A lap by several rule sets, by tests, turned round, and as hand calculations, as a user works with them."""

import pickle
import re

import pytest
from matplotlib.mathtext import MathTextParser

import raisedbody as rb

METHODS = ["EN 1993-1-3", "AISI S100", "AISI S100 LRFD", "AISI S100 J3", "AISI S100 J3 LRFD", "handbook bearing"]
LOADS = ["3620 N", "3780 N", "3550 N", "3910 N", "3690 N"]  # invented


@pytest.fixture
def quarter(lap: rb.Lap) -> rb.Lap:
    """A quarter-inch rivet in a 17/64 in hole: outside the tables of EN 1993-1-3."""
    rivet = rb.BlindRivet("1/4 in", shear="6 kN", tension="5 kN", head="1/2 in", hole="17/64 in")
    return rb.Lap(outer=lap.outer, inner=lap.inner, rivet=rivet, pitch="50 mm", edge="13 mm")


def stainless(**more: object) -> rb.Lap:
    sheet = rb.Sheet(thickness="0.9 mm", fy="250 MPa", fu="360 MPa")
    rivet = rb.BlindRivet("4.8 mm", product="ISO 16585")
    return rb.Lap(outer=sheet, inner=sheet, rivet=rivet, pitch="60 mm", edge="12 mm", **more)  # type: ignore[arg-type]


def test_methods_side_by_side() -> None:
    joint = stainless(handbook_bearing=("600 MPa", "780 MPa"))
    reports = joint.check_by(METHODS, shear="400 N", load_factor=1.5)
    assert [r.method for r in reports] == METHODS
    assert [r.level for r in reports] == ["design", "allowable", "factored", "allowable", "factored", "minimum"]
    assert [r.shear_n for r in reports] == [600, 400, 600, 400, 600, 600]
    assert reports[1] == joint.check(shear="400 N", method="AISI S100")
    assert reports.verdict == "passes"
    assert len(reports.table["name"]) == sum(len(r) for r in reports)
    assert set(reports.table["method"]) == set(METHODS)
    assert "EN 1993-1-3 (design)" in str(reports)
    assert "<th><div>EN 1993-1-3</div>" in reports._repr_html_()
    assert pickle.loads(pickle.dumps(reports)) == reports
    with pytest.raises(IndexError):
        reports[9]


def test_levels_are_never_mixed() -> None:
    joint = stainless()
    with pytest.raises(rb.InputError, match="levels are never mixed") as caught:
        joint.check_by(["EN 1993-1-3", "AISI S100"], shear="400 N")
    assert caught.value.field == "load_factor"
    alike = joint.check_by(["AISI S100", "AISI S100 J3"], shear="400 N")
    assert [r.shear_n for r in alike] == [400, 400]
    with pytest.raises(rb.InputError, match="1 to 10"):
        joint.check_by(["EN 1993-1-3"], shear="400 N", load_factor=0.5)
    with pytest.raises(rb.InputError, match="methods"):
        joint.check_by([])
    with pytest.raises(rb.InputError, match="method"):
        joint.check_by(["EN 1993-1-8"])


def test_aluminium_has_its_own_rules() -> None:
    sheet = rb.Sheet(thickness="1.2 mm", grade="5052-H32")
    rivet = rb.BlindRivet("4.8 mm", product="ISO 15977 H")
    joint = rb.Lap(outer=sheet, inner=sheet, rivet=rivet, pitch="60 mm", edge="12 mm")
    assert joint.check(shear="300 N").verdict == "outside the rule's range"
    report = joint.check(shear="300 N", method="EN 1999-1-4")
    assert report.verdict == "passes"
    # The product's 1850 N over 1.25 against 38 d2 / 1.25 for an aluminium body (EN 1999-1-4 8.2, from memory)
    shear = next(c for c in report.checks if c.name == "rivet shear")
    assert shear.capacity_n == pytest.approx(38 * 4.8**2 / 1.25)
    assert rivet.body == "aluminium alloy"


def test_choices_change_the_rule_and_are_kept() -> None:
    plain = stainless()

    def capacity(joint: rb.Lap, name: str, method: str) -> float | None:
        return next(c for c in joint.check(method=method).checks if c.name == name).capacity_n

    steady = stainless(steady_tension=True)
    assert capacity(steady, "pull-through", "EN 1993-1-3") == pytest.approx(
        2 * capacity(plain, "pull-through", "EN 1993-1-3")
    )
    stretching = stainless(holes_may_stretch=True)
    assert capacity(stretching, "bearing", "AISI S100 J3") > capacity(plain, "bearing", "AISI S100 J3")
    for joint in (steady, stretching, stainless(lower_anchor="real parts", rows=2, row_spacing="20 mm")):
        assert eval(repr(joint), {"Sheet": rb.Sheet, "BlindRivet": rb.BlindRivet, "Lap": rb.Lap}) == joint
        assert pickle.loads(pickle.dumps(joint)) == joint
    with pytest.raises(rb.InputError, match="real parts"):
        stainless(lower_anchor="thick parts")
    with pytest.raises(rb.InputError, match="row_spacing"):
        stainless(rows=2)
    with pytest.raises(rb.InputError, match="rows"):
        stainless(rows=-1)
    assert (steady.steady_tension, stretching.holes_may_stretch, plain.lower_anchor) == (True, True, "equal parts")
    assert stainless(handbook_bearing=("600 MPa", "780 MPa")).to_dict()["handbook_bearing_mpa"] == (600, 780)
    with pytest.raises(rb.InputError, match="write the load"):
        plain.largest_pitch()
    with pytest.raises(rb.InputError, match="which is which"):
        stainless(handbook_bearing=("780 MPa", "600 MPa"))


def test_three_sheets() -> None:
    joint = stainless(middle=rb.Sheet(thickness="0.9 mm", fy="250 MPa", fu="360 MPa"))
    report = joint.check(shear="500 N")
    assert {c.subject for c in report.checks} == {"outer on middle", "middle on inner"}
    assert joint.to_dict()["middle"]["thickness_mm"] == 0.9
    assert eval(repr(joint), {"Sheet": rb.Sheet, "BlindRivet": rb.BlindRivet, "Lap": rb.Lap}) == joint


def test_turned_round() -> None:
    joint = stainless()
    pitch = joint.largest_pitch(shear="15 N/mm")
    assert joint.check(shear="600 N").verdict == "passes"
    assert pitch.exact
    wider = rb.Lap(
        outer=joint.outer, inner=joint.inner, rivet=joint.rivet, pitch=f"{pitch.value * 1.001} mm", edge="12 mm"
    )
    assert wider.check(shear="15 N/mm").governing.name == pitch.stopped_by
    edge = joint.smallest_edge(shear="600 N")
    assert (edge.unit, edge.stopped_by) == ("mm", "end distance")
    assert edge.value == pytest.approx(1.5 * 4.8)  # EN 1993-1-3 Table 8.1
    sheet = joint.thinnest_sheet(shear="600 N", sheets="outer")
    assert 0.45 <= sheet.value < 0.9
    rows = joint.fewest_rows(shear="60 N/mm")
    assert rows.value == 2
    assert rows.unit == ""
    assert rows.table["verdict"].tolist().count("fails") == 0
    assert "passes" in rows.explain()
    for turned in (pitch, edge, sheet, rows):
        assert pickle.loads(pickle.dumps(turned)) == turned
        assert turned.lap == joint
        assert "stopped by" in repr(turned)
    assert rows.to_dict()["value"] == 2
    none = joint.largest_pitch(shear="500 N/mm")
    assert (none.value, none.stopped_by) == (None, "bearing")
    assert "none passes" in repr(none)
    with pytest.raises(rb.QuantityError, match="shear"):
        joint.largest_pitch(shear="500 N")
    with pytest.raises(rb.InputError, match="sheets"):
        joint.thinnest_sheet(shear="1 N", sheets="skin")


def test_outside_the_range_becomes_an_answer(quarter: rb.Lap) -> None:
    by_rule = quarter.check(shear="900 N")
    assert by_rule.verdict == "outside the rule's range"
    assert "a drill of at most 6.45 mm" in by_rule.governing.reason
    coupons = rb.Coupons(LOADS)
    # EN 1990 D7.2: worked by hand for these loads
    characteristic = coupons.characteristic("log-normal")
    assert characteristic.value_n == pytest.approx(2938.9, abs=0.05)
    design = characteristic.design(gamma_m=1.25)
    assert (design.level, round(design.value_n, 1)) == ("design", 2351.1)
    assert coupons.characteristic("normal", scatter=0.08).value_n == pytest.approx(3175.8, abs=0.05)
    assert coupons.design("log-normal").value_n == pytest.approx(1694.5, abs=0.05)
    tested = rb.Tested(quarter, design)
    report = quarter.check_by_test(tested, shear="900 N")
    assert (report.verdict, report.method, report.level) == ("passes", "tested lap", "design")
    assert report.utilisation == pytest.approx(900 / 2351.1, rel=1e-4)
    with_pull = quarter.check_by_test(tested, shear="900 N", tension="200 N")
    assert with_pull.verdict == "not assessed"
    both = quarter.check_by_test(tested, shear="900 N", tension="200 N", tested_in_tension=tested)
    assert both.verdict == "passes"
    # half of what a pull once showed, for repeated wind
    pulled = next(c for c in both.checks if c.name == "tested lap, tension")
    assert pulled.capacity_n == pytest.approx(2351.1 / 2, abs=0.05)
    nearer = rb.Lap(outer=quarter.outer, inner=quarter.inner, rivet=quarter.rivet, pitch="50 mm", edge="12 mm")
    assert nearer.check_by_test(tested, shear="900 N").governing.name == "edge distance"
    for thing in (coupons, characteristic, design, tested, report, both):
        assert pickle.loads(pickle.dumps(thing)) == thing
    for thing in (coupons, characteristic, design):
        assert eval(repr(thing), {"Coupons": rb.Coupons}) == thing
    assert "R_k" in design.explain()
    assert "EN 1990" in design._repr_html_()
    assert design.to_dict()["n"] == len(coupons) == 5


def test_nominal_tests(quarter: rb.Lap) -> None:
    # AISI S100 K2.1: worked by hand for these loads
    nominal = rb.Coupons(LOADS).nominal_aisi_s100()
    assert (round(nominal.phi, 4), round(nominal.omega, 3)) == (0.5964, 2.683)
    assert rb.Tested(quarter, nominal).resistance_n == pytest.approx(1383.0, abs=0.05)
    factored = rb.Tested(quarter, nominal, format="factored")
    assert (factored.level, factored.resistance_n) == ("factored", pytest.approx(2212.8, abs=0.05))
    assert pickle.loads(pickle.dumps(factored)) == factored
    assert nominal.variation == 0.065
    with pytest.raises(rb.InputError, match="characteristic") as caught:
        rb.Tested(quarter, rb.Coupons(LOADS).characteristic())
    assert caught.value.field == "result"
    with pytest.raises(rb.InputError, match="leave the format out"):
        rb.Tested(quarter, rb.Coupons(LOADS).design(), format="factored")
    with pytest.raises(rb.InputError, match="partial factor"):
        nominal.design()


@pytest.mark.parametrize(
    ("call", "field"),
    [
        (lambda: rb.Coupons([]), "loads"),
        (lambda: rb.Coupons(["3600 N", "-1 N"]), "loads[1]"),
        (lambda: rb.Coupons(["3600 N", "3600"]), "loads[1]"),
        (lambda: rb.Coupons(["3600 N", "3500 N"], thicknesses=["1.2 mm"]), "thicknesses"),
        (lambda: rb.Coupons(["3600 N"], thicknesses=["1.2 mm"]), "ordered_thickness"),
        (lambda: rb.Coupons(["3600 N"], strengths=["5 GPa"], ordered_strength="360 MPa"), "strengths[0]"),
        (lambda: rb.Coupons(["3600 N"], predicted=["3000 N"]), "ordered_predicted"),
        (lambda: rb.Coupons(["3600 N", "3500 N"]).characteristic(), "loads"),
        (lambda: rb.Coupons(LOADS).characteristic("weibull"), "distribution"),
        (lambda: rb.Coupons(LOADS).nominal_aisi_s100("rivet"), "connection"),
        (lambda: rb.Coupons([*LOADS, "9000 N"]).nominal_aisi_s100().value_n and rb.Coupons([]), "loads"),
    ],
)
def test_coupons_that_cannot_be(call, field) -> None:
    with pytest.raises(rb.InputError) as caught:
        call()
    assert caught.value.field == field


def test_hand_calculations_in_three_forms() -> None:
    report = stainless().check(shear="600 N", tension="60 N")
    assert "F_b,Rd = min(α d, e1/1.2) f_u t / γ_M2" in report.explain()
    html = report.explain("html")
    assert "<i>F</i><sub>b,Rd</sub>" in html
    assert html.count("<section>") == len(report)
    assert r"\paragraph{bearing} [EN 1993-1-3:2006 Table 8.1]" in report.explain("latex")
    assert report.checks[0].explain("html") in html
    assert report.checks[0].terms[0] == ("t", 0.9, "mm")
    assert report[-1] == report.checks[-1]
    with pytest.raises(rb.InputError, match='"latex"'):
        report.explain("laetx")


def test_latex_formulas_typeset() -> None:
    """Every formula and symbol goes through an independent reader of TeX mathematics."""
    joint = stainless(handbook_bearing=("600 MPa", "780 MPa"), panel_edge=True)
    sheet = rb.Sheet(thickness="1.2 mm", grade="5052-H32")
    aluminium = rb.Lap(outer=sheet, inner=sheet, rivet=joint.rivet, pitch="60 mm", edge="12 mm")
    coupons = rb.Coupons(LOADS)
    results = [coupons.characteristic("normal"), coupons.nominal_aisi_s100(), coupons.characteristic().design()]
    texts = [joint.check_by(METHODS, shear="400 N", tension="40 N", load_factor=1.5).explain("latex")]
    texts.append(aluminium.check(shear="300 N", tension="30 N", method="EN 1999-1-4").explain("latex"))
    texts.append(joint.check_by_test(rb.Tested(joint, results[-1]), shear="300 N").explain("latex"))
    texts.extend(result.explain("latex") for result in results)
    parser = MathTextParser("agg")
    formulas = {m for text in texts for m in re.findall(r"\\\[ (.*?) \\\]|\$(.*?)\$", text)}
    assert len(formulas) > 60
    for display, inline in formulas:
        formula = display or inline
        assert formula.isascii(), formula
        parser.parse(f"${formula}$")
