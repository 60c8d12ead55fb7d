"""How long the skin lasts, as a user asks it: climates, lives, joints that thin, what a year costs."""

import math

import numpy as np
import numpy_financial as npf
import pytest

import raisedbody as rb

DEMO = "examples/mobile_library.toml"
AIR = {"temperature": "10 degC", "humidity": "75 %", "so2": "10 mg/m2/d", "chloride": "3 mg/m2/d"}


def test_losses_by_climate():
    losses = rb.first_year_losses(**AIR)
    assert losses["metal"].tolist() == ["steel", "zinc", "copper", "aluminium"]
    assert losses["rate_um_a"][0] == pytest.approx(29.84, abs=0.005)
    assert (losses["low_um_a"] < losses["rate_um_a"]).all()
    assert (losses["high_um_a"] > losses["rate_um_a"]).all()
    # Aluminium pits: no category by depth.
    assert losses["category"].tolist() == ["C3", "C3", "C3", ""]
    # In other units the same air.
    assert rb.first_year_losses(**{**AIR, "temperature": "50 degF"})["rate_um_a"] == pytest.approx(losses["rate_um_a"])


def test_a_climate_outside_the_range_is_refused():
    with pytest.raises(rb.exceptions.InputError, match=r"temperature.*28\.7 degC"):
        rb.first_year_losses(**{**AIR, "temperature": "35 degC"})
    with pytest.raises(rb.exceptions.QuantityError, match="so2"):
        rb.first_year_losses(**{**AIR, "so2": "10"})


def test_lives_by_every_reading():
    lives = rb.layer_lives(thickness="20 um", category="C3")
    assert len(lives["reading"]) == 5
    # ISO 14713-1 (from memory): thickness over each bound of the category.
    assert lives["shortest_years"][0] == pytest.approx(20 / 2.1)
    assert lives["longest_years"][0] == pytest.approx(20 / 0.7)
    # The readings differ by up to two times and more: each is named.
    assert lives["longest_years"].max() / lives["longest_years"].min() > 1.9
    same = rb.layer_lives(thickness="20 um", rate=("0.7 um/a", "2.1 um/a"))
    assert np.array_equal(same["shortest_years"], lives["shortest_years"])


@pytest.mark.parametrize(
    ("how", "match"),
    [
        ({}, "category"),
        ({"category": "C3", "rate": ("1 um/a", "2 um/a")}, "give one"),
        ({"category": "C7"}, "C7"),
        ({"category": "C3", "metal": "tin"}, "tin"),
        ({"category": "C3", "least": "30 um"}, "least"),
        ({"rate": ("0 um/a", "0 um/a")}, "high_um_a"),
    ],
)
def test_a_life_that_cannot_be(how, match):
    with pytest.raises(rb.exceptions.InputError, match=match):
        rb.layer_lives(thickness="20 um", **how)


def test_losses_over_years():
    losses = rb.losses_over_years(np.arange(0, 31), category="C4", metal="steel")
    assert losses["most_um"][0] == 0
    assert (np.diff(losses["most_um"]) > 0).all()
    assert (losses["least_um"] <= losses["most_um"]).all()
    assert rb.losses_over_years([], category="C4")["years"].size == 0
    with pytest.raises(rb.exceptions.InputError, match="years"):
        rb.losses_over_years([-1], category="C4")


@pytest.mark.parametrize("discount", [0.0, 0.04, 0.1])
@pytest.mark.parametrize("horizon", [5, 15, 40])
def test_yearly_cost_beside_a_financial_library(discount, horizon):
    """numpy-financial's pmt and npv on the same spending."""
    cost = rb.yearly_cost(
        first="4200 USD", renewal="3000 USD", life_years=4, horizon_years=horizon, discount=f"{100 * discount} %"
    )
    spending = np.zeros(horizon)
    spending[0] = 4200
    spending[4::4] = 3000
    present = npf.npv(discount, spending)
    assert cost["per_year"][0] == pytest.approx(-npf.pmt(discount, horizon, present))
    assert cost["renewals_count"][0] == np.count_nonzero(spending) - 1
    assert cost["currency"][0] == "USD"


def test_yearly_cost_refuses_nonsense():
    with pytest.raises(rb.exceptions.InputError, match="one currency"):
        rb.yearly_cost(first="1 USD", renewal="1 EUR", horizon_years=10)
    with pytest.raises(rb.exceptions.InputError, match="whole sum"):
        rb.yearly_cost(first="1 USD/kg", horizon_years=10)
    with pytest.raises(rb.exceptions.InputError, match="horizon_years"):
        rb.yearly_cost(first="1 USD", horizon_years=math.nan)


def test_surroundings_of_a_plan():
    plan = rb.Plan.read(DEMO)
    road = {"name": "salted road", "share": "50 %", "category": "C4"}
    yard = {"name": "dry yard", "share": "50 %", "climate": {**AIR, "humidity": "45 %"}}
    outlook = plan.replace(service={"surroundings": [road, yard]}).evaluate().outlook
    assert outlook["because"][0] == "50 % salted road, C4; 50 % dry yard, by climate"
    assert (outlook["zinc_high_um_a"] > outlook["zinc_low_um_a"]).all()
    assert (outlook["thin_side_longest_years"] < outlook["average_side_longest_years"]).all()
    with pytest.raises(rb.exceptions.InputError, match="100 %"):
        plan.replace(service={"surroundings": [road]})


def test_the_thinned_joint_has_lost_just_its_share():
    """The lap of two new sheets, made anew from measured bare sheet of the thickness that the plan gives."""
    plan = rb.Plan.read(DEMO).replace(service={"strength_loss": "20 %"})
    build = plan.evaluate()
    seams = [row for row in build.thinned.rows() if row["kind"] == "course seam" and row["method"].startswith("AISI")]
    joints = [row for row in build.joints.rows() if row["kind"] == "course seam" and row["method"].startswith("AISI")]
    assert seams
    assert len(seams) == len(joints)
    rivet = rb.BlindRivet(
        "1/4 in", shear="9500 N", tension="7000 N", head="1/2 in", hole="17/64 in", structural=True, sealed=True
    )
    for thin, joint in zip(seams, joints, strict=True):
        sheet = rb.Sheet(thickness=f"{thin['thinnest_mm']} mm", fy="230 MPa", fu="310 MPa")
        pitch = f"{joint['pitch_mm']} mm"
        lap = rb.Lap(outer=sheet, inner=sheet, rivet=rivet, pitch=pitch, edge="5/8 in", panel_edge=True)
        report = lap.check(shear=f"{joint['shear_n']} N", tension=f"{joint['tension_n']} N", method="AISI S100")
        # To the third of a micrometre that the search stops at.
        assert report.utilisation == pytest.approx(thin["utilisation_now"] / 0.8, rel=1e-3)


def test_what_a_year_costs():
    plan = rb.Plan.read(DEMO).replace(life={"horizon": 15, "ends": "eaten through", "discount": "4 %"})
    cost = plan.evaluate().life_cost
    assert cost["per_year_least"][0] < cost["per_year_most"][0]
    again = rb.yearly_cost(
        first=f"{cost['first'][0]} USD",
        renewal="9000 USD",
        life_years=cost["shortest_years"][0],
        horizon_years=15,
        discount="4 %",
    )
    assert cost["per_year_most"][0] == pytest.approx(again["per_year"][0])
    table = rb.compare({"A40": plan, "G90": plan.replace(skin={"coating": "G90"})}).table
    assert table["cost_per_year_most"][1] <= table["cost_per_year_most"][0]
    assert table["coating_life_shortest_years"][1] > table["coating_life_shortest_years"][0]


def test_quantity_objects_of_areas_and_rates():
    pint = pytest.importorskip("pint")
    u = pint.UnitRegistry()
    air = {
        "temperature": u.Quantity(10, "degC"),
        "humidity": u.Quantity(75, "percent"),
        "so2": u.Quantity(10, "mg/m**2/day"),
        "chloride": u.Quantity(3, "mg/m**2/day"),
    }
    assert rb.first_year_losses(**air)["rate_um_a"][0] == pytest.approx(29.84, abs=0.005)
    lives = rb.layer_lives(
        thickness=u.Quantity(20, "micrometer"), rate=(u.Quantity(0.7, "um/a"), u.Quantity(2.1, "um/a"))
    )
    assert lives["shortest_years"][0] == pytest.approx(20 / 2.1)
