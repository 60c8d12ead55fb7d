"""Paint and sealant as a user works with them: data sheets, a plan's coats, zinc and paint together.

Published values and laws are tested in Rust; units are converted here by an independent library.
"""

import copy
import json
import math
import pickle
from collections.abc import Callable

import numpy as np
import pint
import pytest

import raisedbody as rb

UNITS = pint.UnitRegistry()


@pytest.mark.parametrize(("film", "solids"), [("60 um", 0.45), ("2 mil", 0.5), ("1.6 mil", 0.42), ("3 mil", 1.0)])
@pytest.mark.parametrize("loss", [0.0, 0.3])
def test_spreading_rates_against_another_library_of_units(film: str, solids: float, loss: float) -> None:
    # A volume of dry paint spread as thick as its film. There a mil is an angle, and a thou what is meant.
    thickness = UNITS.Quantity(film.replace("mil", "thou"))
    covered = solids * (1 - loss) / thickness
    m2_l = covered.to("m**2/L").magnitude
    ft2_gal = covered.to("ft**2/US_liquid_gallon").magnitude
    share, lost = f"{100 * solids} %", f"{100 * loss} %"
    assert rb.spreading_rate_m2_l(film, share, loss=lost) == pytest.approx(m2_l, rel=1e-12)
    assert rb.spreading_rate_ft2_gal(film, share, loss=lost) == pytest.approx(ft2_gal, rel=1e-12)
    assert rb.parse(f"{ft2_gal} ft2/gal", "spreading rate") == pytest.approx(m2_l, rel=1e-12)
    # The same as what stays on the sheet.
    assert rb.spreading_rate_m2_l(film, share, transfer_efficiency=f"{100 * (1 - loss)} %") == pytest.approx(m2_l)
    wet = thickness / solids
    assert rb.wet_film_um(film, share) == pytest.approx(wet.to("um").magnitude, rel=1e-12)
    # A quantity object is as good as text.
    assert rb.wet_film_um(thickness, share) == pytest.approx(wet.to("um").magnitude, rel=1e-12)


def test_published_rates() -> None:
    # 42 % solids at 1.6 mil, restated by a secondary text.
    assert round(rb.spreading_rate_ft2_gal("1.6 mil", "42 %")) == 421
    # 100 ft2/gal in theory, 30 % lost: corrosionpedia.com/definition/2294.
    film_mil = 231 / 144 / 0.001 / 100
    assert rb.spreading_rate_ft2_gal(f"{film_mil} mil", "100 %") == pytest.approx(100)
    assert rb.spreading_rate_ft2_gal(f"{film_mil} mil", "100 %", loss="30 %") == pytest.approx(70)
    assert rb.spreading_rate_ft2_gal(f"{film_mil} mil", "100 %", method="conventional spray") == pytest.approx(70)


def test_more_solids_give_more_area() -> None:
    rates = [rb.spreading_rate_m2_l("50 um", f"{solids} %") for solids in range(10, 101, 10)]
    assert rates == sorted(rates)
    assert rates[-1] == 20


def test_beads() -> None:
    # Lap film 25 mm x 0.5 mm: 12.5 mL a metre.
    assert rb.sealant_volume_l("1 m", width="25 mm", depth="0.5 mm") == pytest.approx(0.0125)
    assert rb.sealant_volume_l("1 m", leg="6 mm") == pytest.approx(0.018)
    assert rb.sealant_volume_l("10 ft", diameter="1/4 in", hand="new") == pytest.approx(
        (math.pi / 4 * UNITS.Quantity("0.25 in") ** 2 * UNITS.Quantity("10 ft")).to("L").magnitude * 1.25
    )
    # 10.1 fl oz are 18.2 in3.
    content = UNITS.Quantity("10.1 US_fluid_ounce")
    assert content.to("in**3").magnitude == pytest.approx(18.2, abs=0.05)
    assert rb.cartridges_count("3 L", "10.1 fl oz") == math.ceil(3 / content.to("L").magnitude)
    assert rb.cartridges_count("0 L", "310 mL") == 0


def test_durability_by_both_editions() -> None:
    table = rb.paint_durability("C3", "125 um")
    assert table["edition"].tolist() == [2018, 1998]
    assert set(table["durability"]) == {"high"}
    np.testing.assert_equal(table["from_years"], [15, 15])
    np.testing.assert_equal(table["to_years"], [25, np.nan])
    assert table["standing"].tolist() == ["from memory", "from memory"]
    assert "ISO 12944-1:1998" in table["source"][1]
    # The class of 2018 did not exist in 1998.
    assert rb.paint_durability("C3", "200 um")["durability"].tolist() == ["very high", "no such class"]
    for category, film, words in [("C3", "79 um", "below the lowest"), ("CX", "300 um", "not tabulated")]:
        none = rb.paint_durability(category, film)
        assert set(none["durability"]) == {words}
        assert np.isnan(none["from_years"]).all()
        assert np.isnan(none["to_years"]).all()


def test_zinc_and_paint_together() -> None:
    # Zinc 40 a, paint 10 a, k 1.5: 75 a.
    life = rb.duplex_life((40, 40), (10, 10), "C5")
    assert life["decides"].tolist() == [True, False, False, False]
    assert life["shortest_years"][0] == life["longest_years"][0] == 75
    assert life["standing"].tolist() == ["assumed"] + 3 * ["read in the source"]
    np.testing.assert_allclose(life["shortest_years"], 50 * life["k_low"])
    np.testing.assert_allclose(life["longest_years"], 50 * life["k_high"])
    assert life["k_high"].tolist() == [1.5, 2.3, 2.5, 2.7]
    assert rb.duplex_life((40, 40), (10, 10), "C3")["k_high"][0] == 2
    open_ended = rb.duplex_life((5, 12), (7, None), "C4")
    assert np.isnan(open_ended["longest_years"]).all()
    assert open_ended["shortest_years"][0] == 18


def test_the_tables_of_the_catalogue() -> None:
    films = rb.catalogue_table("paint_system")
    assert films["category"].tolist() == ["C2", "C3", "C4", "C5"]
    np.testing.assert_allclose(films["very_high_um"], [120, 160, 200, 240])
    assert set(films["standing"]) == {"from memory"}
    assert len(rb.catalogue_table("durability")["band"]) == 7
    coats = rb.catalogue_table("paint_coat")
    assert np.isnan(coats["solids_ratio"][coats["name"] == "etch primer"]).all()
    losses = rb.catalogue_table("application_loss")
    assert losses["most_ratio"][losses["by"] == "average"].tolist() == [0.15]
    assert rb.catalogue_table("duplex_factor")["categories"].tolist()[2:] == 3 * [""]


def test_paint_of_a_plan(plan: rb.Plan, build: rb.Evaluation) -> None:
    paint = build.paint
    assert paint["coat"].tolist() == ["epoxy primer", "epoxy primer", "topcoat"]
    assert paint["side"].tolist() == ["inside", "outside", "outside"]
    np.testing.assert_allclose(paint["wet_film_um"], paint["film_um"] / paint["solids_ratio"])
    np.testing.assert_allclose(paint["practical_m2_l"], paint["theoretical_m2_l"] * (1 - paint["loss_ratio"]))
    np.testing.assert_allclose(paint["paint_l"], paint["area_m2"] / paint["practical_m2_l"])
    np.testing.assert_allclose(paint["amount"], paint["paint_l"] * paint["unit_price"], atol=0.03)
    order = dict(zip(build.order["item"], build.order["quantity"], strict=True))
    assert order["epoxy primer"] == pytest.approx(paint["paint_l"][:2].sum())
    assert build.quote is not None
    quote = dict(zip(build.quote.lines["name"], build.quote.lines["amount"], strict=True))
    assert quote["epoxy primer"] == pytest.approx(paint["amount"][:2].sum(), abs=0.06)
    assert order["sealant"] == math.floor(order["sealant"])
    # Zinc-iron is not the metal of the table.
    assert set(build.paint_outlook["durability"]) == {"not assessed"}
    laps = {"corrosivity": {"laps": "C5"}}
    zinc = plan.replace(skin={"coating": "G90"}, service=laps).evaluate().paint_outlook
    assert dict(zip(zinc["category"], zinc["durability"], strict=True)) == {
        "C3": "medium",
        "C4": "low",
        "C5": "below the lowest",
    }
    assert zinc["film_um"].tolist() == [110, 110, 110]
    assert json.loads(json.dumps(build.to_dict()))["paint"][0]["coat"] == "epoxy primer"
    assert pickle.loads(pickle.dumps(build)) == copy.copy(build)


def test_paint_in_a_sweep(plan: rb.Plan) -> None:
    coat = {"name": "topcoat", "film": "90 um", "price": "46 USD/L"}
    sweep = plan.sweep({"paint.coats": [[coat], [coat, coat]], "paint.hand": ["expert", "new"]})
    prices = np.asarray(sweep.table["price_total"])
    assert (np.diff(prices) > 0).all()


@pytest.mark.parametrize(
    ("call", "fields"),
    [
        (lambda: rb.spreading_rate_m2_l("0 um", "0 %", loss="99 %"), ["film", "solids", "loss"]),
        (lambda: rb.spreading_rate_m2_l("60 um", "45 %", transfer_efficiency="120 %"), ["transfer_efficiency"]),
        (lambda: rb.spreading_rate_m2_l("60 um", "45 %", loss="10 %", method="brush"), ["loss"]),
        (lambda: rb.spreading_rate_m2_l("60 um", "45 %", method="broom"), ["method"]),
        (lambda: rb.wet_film_um("2 m", "45 %"), ["film"]),
        (lambda: rb.sealant_volume_l("1 m", width="25 mm"), ["bead"]),
        (lambda: rb.sealant_volume_l("1 m", leg="-4 mm", waste="500 %"), ["waste", "leg"]),
        (lambda: rb.sealant_volume_l("-1 m", leg="4 mm", hand="clumsy"), ["length", "hand"]),
        (lambda: rb.cartridges_count("-1 L", "1 mL"), ["sealant", "content"]),
        (lambda: rb.paint_durability("C6", "-1 um"), ["category", "film"]),
        (lambda: rb.duplex_life((-1, None), (1, None), "C3"), ["zinc_years"]),
        (lambda: rb.duplex_life((1, None), (2, 1), "C3"), ["paint_years"]),
        (lambda: rb.duplex_life((1, None), (2, 3), "C9"), ["category"]),
    ],
)
def test_what_cannot_be_is_named(call: Callable[[], object], fields: list[str]) -> None:
    with pytest.raises(rb.InputError) as caught:
        call()
    assert [problem.field for problem in caught.value.problems] == fields


def test_a_quantity_without_its_unit() -> None:
    with pytest.raises(rb.QuantityError, match="no unit"):
        rb.spreading_rate_m2_l("60", "45 %")
    with pytest.raises(rb.QuantityError) as caught:
        rb.sealant_volume_l("1 kg", leg="4 s")
    assert [problem.field for problem in caught.value.problems] == ["length", "leg"]
