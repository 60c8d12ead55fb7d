"""What stands on the axes of every plot: words and units, the numbers of the tables, limits where they are."""

import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import matplotlib as mpl
import matplotlib.pyplot as plt
import numpy as np
import pandas as pd
import polars as pl
import pytest
from matplotlib.axes import Axes
from matplotlib.colors import to_hex

import raisedbody as rb
from raisedbody import _columns, _marks

ENDS = ("eaten_through_shortest_years", "eaten_through_longest_years")
PITCHES = ["3 in", "3 1/2 in", "4 in"]


@pytest.fixture(autouse=True)
def _no_window() -> Iterator[None]:
    mpl.use("Agg")
    yield
    plt.close("all")


@pytest.fixture(scope="module")
def library() -> rb.Plan:
    return rb.Plan.read(Path(__file__).parents[2] / "examples/mobile_library.toml")


@pytest.fixture(scope="module")
def gauges(library: rb.Plan) -> rb.Comparison:
    return rb.compare({f"{gauge} ga": library.replace(skin={"gauge": gauge}) for gauge in (16, 18, 20)})


@pytest.fixture(scope="module")
def sweep(library: rb.Plan) -> rb.Sweep:
    return library.sweep({"skin.gauge": [16, 18, 20], "fastening.pitch": PITCHES})


def legend(ax: Axes) -> list[str]:
    drawn = ax.get_legend()
    return [] if drawn is None else [text.get_text() for text in drawn.get_texts()]


def line(ax: Axes, name: str) -> tuple[list[float], list[float]]:
    """The places of what the legend has under this name."""
    found = next(own for own in ax.lines if own.get_label() == name)
    return list(np.asarray(found.get_xdata())), list(np.asarray(found.get_ydata()))


def spans(ax: Axes) -> list[tuple[float, float]]:
    """From where to where each level bar goes."""
    return [(bar.get_x(), bar.get_x() + bar.get_width()) for bar in ax.patches]


def test_compared_plans_have_a_bar_each(gauges: rb.Comparison) -> None:
    ax = rb.plot.comparison(gauges, "skin_mass_kg")
    assert ax.get_xlabel() == "skin mass, kg"
    assert [text.get_text() for text in ax.get_yticklabels()] == ["16 ga", "18 ga", "20 ga"]
    assert spans(ax) == [(0, mass) for mass in gauges.table["skin_mass_kg"]]
    assert ax.get_ylim()[0] > ax.get_ylim()[1]  # the first on top


def test_a_limit_is_a_line_with_its_name(gauges: rb.Comparison) -> None:
    ax = rb.plot.comparison(
        gauges, "joint_utilisation_aisi_ratio", limits={"joint_utilisation_aisi_ratio": (None, 1.0)}
    )
    assert line(ax, "limit: joint utilisation AISI ≤ 1")[0] == [1.0, 1.0]
    assert legend(ax) == ["limit: joint utilisation AISI ≤ 1"]


def test_numbers_of_one_unit_stand_side_by_side(gauges: rb.Comparison) -> None:
    both = ("front_axle_margin_kg", "rear_axle_margin_kg")
    ax = rb.plot.comparison(gauges, *both, limits={"rear_axle_margin_kg": (0, None)})
    assert ax.get_xlabel() == "kg"
    assert legend(ax) == ["limit: rear axle margin ≥ 0 kg", "front axle margin", "rear axle margin"]
    assert [span[1] for span in spans(ax)] == [mass for name in both for mass in gauges.table[name]]


def test_prices_have_their_currency(gauges: rb.Comparison) -> None:
    assert rb.plot.comparison(gauges, "price_total").get_xlabel() == "price, USD"
    ax = rb.plot.comparison(gauges, ("cost_per_year_least", "cost_per_year_most"))
    assert ax.get_xlabel() == "cost, USD/year"
    assert rb.plot.comparison(gauges, "sheet_price_per_m2").get_xlabel() == "sheet price, USD/m²"


def test_prices_in_two_currencies_have_no_common_axis(library: rb.Plan) -> None:
    text = library.to_text()
    compared = rb.compare({"a": library, "b": rb.Plan.from_text(text.replace(" USD", " EUR"), "examples")})
    with pytest.raises(rb.InputError, match="EUR and USD, which no common axis can show"):
        rb.plot.comparison(compared, "price_total")
    assert rb.plot.comparison(compared, "skin_mass_kg").get_xlabel() == "skin mass, kg"


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("labour_h_per_m", "labour, h/m"),
        ("practical_m2_l", "practical, m²/L"),
        ("stop_wind_m_s", "stop wind, m/s"),
        ("racking_n_mm", "racking, N/mm"),
        ("splice_design_moment_n_mm", "splice design moment, N mm"),
        ("drumming_low_hz", "drumming low, Hz"),
        ("zinc_low_um_a", "zinc low, µm/a"),
        ("x_mm", "x, mm"),
        ("k", "k"),
        ("raise.height", "raise.height"),
        (("coating_shortest_years", "coating_longest_years"), "coating, years"),
        (("low_mm", "high_mm"), "value, mm"),
    ],
)
def test_a_label_has_the_unit_of_its_column(name: str | tuple[str, str], words: str) -> None:
    assert _columns.label(name) == words


def test_a_range_goes_from_end_to_end(build: rb.Evaluation) -> None:
    ax = rb.plot.bars(build.outlook, "zone", ENDS)
    assert ax.get_xlabel() == "eaten through, years"
    assert [text.get_text() for text in ax.get_yticklabels()] == build.outlook["zone"].tolist()
    assert np.allclose(spans(ax), list(zip(*(build.outlook[name] for name in ENDS), strict=True)), rtol=1e-12)


def test_what_is_not_known_is_no_bar() -> None:
    table = rb.Table(
        name=np.array(["a", "b", "c"]),
        life_least_years=np.array([1.0, 2.0, np.nan]),
        life_most_years=np.full(3, np.nan),
    )
    ax = rb.plot.bars(table, "name", ("life_least_years", "life_most_years"))
    assert spans(ax) == []
    assert line(ax, "at least") == ([1, 2], [0, 1])
    assert [(text.get_text(), text.get_position()[1]) for text in ax.texts] == [("not known", 2)]


def test_a_sweep_has_a_line_for_each_value(sweep: rb.Sweep) -> None:
    ax = rb.plot.sweep(sweep, "fastening.pitch", "rivets_count")
    assert (ax.get_xlabel(), ax.get_ylabel()) == ("fastening.pitch", "rivets, count")
    assert legend(ax) == ["gauge 16", "gauge 18", "gauge 20"]
    assert [text.get_text() for text in ax.get_xticklabels()] == PITCHES
    for gauge in ("16", "18", "20"):
        rows = sweep.table["skin.gauge"] == gauge
        x, y = line(ax, f"gauge {gauge}")
        assert x == [rb.parse(pitch, "length") for pitch in PITCHES]
        assert y == sweep.table["rivets_count"][rows].tolist()


def test_a_sweep_along_many_values_has_the_unit_on_the_axis(library: rb.Plan) -> None:
    heights = [f"{mm} mm" for mm in range(420, 280, -10)]
    swept = library.sweep({"raise.height": heights})
    ends = ("cg_height_after_low_mm", "cg_height_after_high_mm")
    ax = rb.plot.sweep(swept, "raise.height", ends, limits={"cg_height_after_high_mm": (None, 1400)})
    assert (ax.get_xlabel(), ax.get_ylabel()) == ("raise.height, mm", "CG height after, mm")
    assert ax.lines[1].get_xdata().tolist() == list(range(290, 430, 10))
    assert ax.lines[1].get_ydata().tolist() == swept.table[ends[0]][::-1].tolist()
    assert ax.lines[0].get_ydata().tolist() == swept.table[ends[1]][::-1].tolist()
    assert len(ax.collections) == 1  # the band
    assert line(ax, "limit: cg height after high ≤ 1400 mm".replace("cg", "CG"))[1] == [1400, 1400]
    assert rb.plot.sweep(swept, "raise.height", "price_total").get_ylabel() == "price, USD"


def test_values_that_are_no_quantity_stand_where_they_are_put(library: rb.Plan) -> None:
    hung = [{"skin": f"{24 + k} degC", "frame": "24 degC"} for k in (0, 5, 20)]
    swept = library.sweep({"skin.gauge": [16, 18], "flatness.hang": hung})
    ax = rb.plot.sweep(
        swept,
        "flatness.hang",
        "joint_utilisation_aisi_ratio",
        where={"skin.gauge": "18"},
        at=[0, 5, 20],
        at_label="hung warmer than the frame by, K",
    )
    assert ax.get_xlabel() == "hung warmer than the frame by, K"
    assert ax.lines[0].get_xdata().tolist() == [0, 5, 20]
    assert ax.lines[0].get_ydata().tolist() == swept.table["joint_utilisation_aisi_ratio"][3:].tolist()
    ax = rb.plot.sweep(swept, "flatness.hang", "skin_mass_kg")
    assert ax.lines[0].get_xdata().tolist() == [0, 1, 2]
    with pytest.raises(rb.InputError, match="at: 2 places for 3 values"):
        rb.plot.sweep(swept, "flatness.hang", "skin_mass_kg", at=[0, 5])


def test_one_number_against_another_is_a_mark_for_each_combination(sweep: rb.Sweep) -> None:
    ax = rb.plot.sweep(sweep, "rivets_count", "labour_h", by=["skin.gauge"])
    assert (ax.get_xlabel(), ax.get_ylabel()) == ("rivets, count", "labour, h")
    assert {own.get_linestyle() for own in ax.lines} == {"None"}
    assert sum(len(own.get_xdata()) for own in ax.lines) == len(sweep)


def test_a_choice_shows_options_limits_and_what_they_rule_out(sweep: rb.Sweep) -> None:
    limits = {"joint_utilisation_aisi_ratio": (None, 0.9), "skin_mass_kg": (170, 300)}
    choice = sweep.choose(minimise=["skin_mass_kg", "rivets_count"], limits=limits)
    ax = rb.plot.choice(choice, "skin_mass_kg", "joint_utilisation_aisi_ratio", by="skin.gauge")
    assert (ax.get_xlabel(), ax.get_ylabel()) == ("skin mass, kg", "joint utilisation AISI, ratio")
    assert line(ax, "limit: joint utilisation AISI ≤ 0.9")[1] == [0.9, 0.9]
    assert line(ax, "limit: skin mass ≥ 170 kg")[0] == [170, 170]
    assert line(ax, "limit: skin mass ≤ 300 kg")[0] == [300, 300]
    options = [own for own in ax.lines if str(own.get_label()).startswith("gauge")]
    drawn = sorted((x, y) for own in options for x, y in zip(own.get_xdata(), own.get_ydata(), strict=True))
    table = choice.table
    assert drawn == sorted(zip(table["skin_mass_kg"], table["joint_utilisation_aisi_ratio"], strict=True))
    beaten = choice.left_out["beaten"]
    assert f"beaten: {beaten}" in legend(ax)
    assert f"over a limit: {len(sweep) - len(choice) - beaten}" in legend(ax)
    assert [text.get_text() for text in ax.texts] == [str(i + 1) for i in range(len(choice))]


def test_odds_rise_to_one_and_meet_their_prices(build: rb.Evaluation) -> None:
    odds = build.quote.odds(draws=5_000, seed=1)
    ax = rb.plot.odds(odds, build.quote)
    assert ax.get_xlabel() == "total, USD"
    assert ax.get_ylabel() == "share of cases in which it holds"
    totals, held = ax.lines[0].get_xdata(), ax.lines[0].get_ydata()
    assert totals.tolist() == odds.totals.tolist()
    assert (held[0], held[-1]) == (1 / 5_000, 1)
    for share in (0.1, 0.5, 0.9):
        price = float(odds.price(share))
        assert line(ax, f"P{100 * share:g}: {price:,.0f} USD") == ([price], [share])
        assert np.interp(price, totals, held) == pytest.approx(share, abs=1 / 5_000)
    quoted = float(build.quote.total)
    name = f"as quoted, {quoted:,.0f} USD: holds in {100 * odds.holds:.0f} %"
    assert line(ax, name)[0] == [quoted, quoted]
    assert name not in legend(rb.plot.odds(odds))


def test_drivers_are_those_of_the_table(build: rb.Evaluation) -> None:
    odds = build.quote.odds(draws=5_000, seed=1)
    ax = rb.plot.drivers(odds, most=3)
    assert ax.get_xlabel() == "moves the price by, USD"
    assert [text.get_text() for text in ax.get_yticklabels()] == odds.drivers["cause"][:3].tolist()
    assert [span[1] for span in spans(ax)] == odds.drivers["swing"][:3].tolist()
    shares = [f"{100 * share:.0f} % of variance" for share in odds.drivers["of_variance"][:3]]
    assert [text.get_text() for text in ax.texts] == shares


@pytest.mark.parametrize("frame", [pd.DataFrame, pl.DataFrame])
def test_rows_of_any_frame_have_a_mark_each(library: rb.Plan, frame: type) -> None:
    jobs = frame({"skin.gauge": [16, 18, 99, 18], "fastening.pitch": PITCHES + PITCHES[:1]})
    quotes = rb.quote_batch(jobs, library, progress=False)
    ax = rb.plot.scatter(quotes, "rivets_count", "price_total", by="skin.gauge")
    assert (ax.get_xlabel(), ax.get_ylabel()) == ("rivets, count", "price, USD")
    assert legend(ax) == ["gauge 16", "gauge 18"]  # the one in error is left out
    assert line(ax, "gauge 18")[1] == [quotes["price_total"][1], quotes["price_total"][3]]


@pytest.mark.parametrize(
    "frame",
    [
        pd.DataFrame({"a_mm": pd.array([1, None, 3], dtype="Int64"), "b_kg": [1.0, 2.0, 3.0]}),
        pl.DataFrame({"a_mm": [1, None, 3], "b_kg": [1.0, 2.0, 3.0]}),
        rb.Table(a_mm=np.array([1, np.nan, 3]), b_kg=np.array([1.0, 2.0, 3.0])),
    ],
)
def test_a_row_with_a_number_missing_is_left_out(frame: object) -> None:
    ax = rb.plot.scatter(frame, "a_mm", "b_kg")
    assert ax.lines[0].get_xdata().tolist() == [1, 3]
    assert ax.lines[0].get_ydata().tolist() == [1, 3]


def test_a_hole_line_before_and_after(build: rb.Evaluation) -> None:
    chosen = build.hole_lines["rub rail, left"]
    ax = rb.plot.hole_line(chosen)
    assert (ax.get_xlabel(), ax.get_ylabel()) == ("along the line, mm", "off the string, mm")
    counts = [len(line(ax, name)[0]) for name in ("old hole, used again", "new hole", "old hole, plugged")]
    assert counts == [chosen.used_count, chosen.new_count, chosen.plug_count]
    ax = rb.plot.hole_line(chosen.line)
    spoilt = chosen.line.holes["spoilt"].astype(bool)
    assert line(ax, "spoilt hole")[0] == chosen.line.holes["along_mm"][spoilt].tolist()
    assert line(ax, "true line")[1][0] == chosen.line.fit().at_mm(f"{chosen.line.start_mm} mm")


def test_axes_of_ones_own_are_drawn_on(gauges: rb.Comparison, sweep: rb.Sweep, build: rb.Evaluation) -> None:
    _, ax = plt.subplots()
    odds = build.quote.odds(draws=1_000)
    choice = sweep.choose(minimise=["skin_mass_kg"])
    given = [
        rb.plot.comparison(gauges, "skin_mass_kg", ax=ax),
        rb.plot.bars(build.outlook, "zone", ENDS, ax=ax),
        rb.plot.sweep(sweep, "fastening.pitch", "labour_h", ax=ax),
        rb.plot.choice(choice, "skin_mass_kg", "labour_h", ax=ax),
        rb.plot.odds(odds, ax=ax),
        rb.plot.drivers(odds, ax=ax),
        rb.plot.scatter(gauges.table, "skin_mass_kg", "labour_h", ax=ax),
        rb.plot.hole_line(build.hole_lines["rub rail, left"], ax=ax),
    ]
    assert all(own is ax for own in given)
    assert len(plt.get_fignums()) == 1


def test_series_differ_without_colour() -> None:
    looks = [_marks.style(i) for i in range(len(_marks.COLOURS))]
    assert len({look["marker"] for look in looks}) == len({str(look["linestyle"]) for look in looks}) == len(looks)
    assert len({_marks.fill(i)["hatch"] for i in range(len(looks))}) == len(looks)
    assert {to_hex(look["color"]) for look in looks} < {  # Okabe and Ito's eight
        "#000000", "#e69f00", "#56b4e9", "#009e73", "#f0e442", "#0072b2", "#d55e00", "#cc79a7",
    }  # fmt: skip


@pytest.mark.parametrize(
    ("draw", "message"),
    [
        (lambda c, s: rb.plot.comparison(c, "skin_mass"), "numbers: there is no column skin_mass; there are name, "),
        (lambda c, s: rb.plot.comparison(c), "numbers: name one or more columns of one unit"),
        (lambda c, s: rb.plot.comparison(c, "skin_mass_kg", "labour_h"), "of one unit, not of h, kg"),
        (lambda c, s: rb.plot.comparison(c, ("skin_mass_kg", "labour_h")), "of one unit, not of h, kg"),
        (
            lambda c, s: rb.plot.sweep(s, "skin.gauge", ("skin_mass_kg", "labour_h")),
            "y: skin_mass_kg and labour_h are not",
        ),
        (lambda c, s: rb.plot.comparison(c, "verdict"), "verdict holds text, not numbers"),
        (lambda c, s: rb.plot.bars(c.table, "plan", "labour_h"), "names: there is no column plan"),
        (lambda c, s: rb.plot.sweep(s, "skin.guage", "labour_h"), "x: there is no column skin.guage"),
        (lambda c, s: rb.plot.sweep(s, "skin.gauge", "labour"), "y: there is no column labour"),
        (lambda c, s: rb.plot.sweep(s, "skin.gauge", "labour_h", by=["skin"]), "by: no entry of the sweep; it varies"),
        (lambda c, s: rb.plot.sweep(s, "skin.gauge", "labour_h", where={"skin": "1"}), "where: no entry of the sweep"),
        (
            lambda c, s: rb.plot.sweep(s, "skin.gauge", "labour_h", where={"fastening.pitch": "9 in"}),
            "where.fastening.pitch: no row has 9 in; there are 3 in, 3 1/2 in, 4 in",
        ),
        (
            lambda c, s: rb.plot.choice(s.choose(minimise=["labour_h"]), "labour_h", "price_total", by="gauge"),
            "by: no entry of the sweep; it varies skin.gauge, fastening.pitch",
        ),
        (lambda c, s: rb.plot.scatter(c.table, "labour_h", "price_total", by="job"), "by: there is no column job"),
    ],
)
def test_what_cannot_be_drawn_says_why(gauges: rb.Comparison, sweep: rb.Sweep, draw, message: str) -> None:
    with pytest.raises(rb.InputError) as refused:
        draw(gauges, sweep)
    assert message in str(refused.value)
    assert refused.value.field is not None
    assert plt.get_fignums() == []


def test_matplotlib_is_imported_when_something_is_drawn_and_named_where_it_is_missing() -> None:
    code = """
import sys
import raisedbody as rb
assert not {"matplotlib", "narwhals", "numpy"} & set(sys.modules)
sys.modules["matplotlib"] = None  # as if it were not installed
odds = rb.Plan.read("examples/mobile_library.toml").evaluate().quote.odds(draws=100)
try:
    rb.plot.odds(odds)
except ModuleNotFoundError as error:
    print(error)
"""
    run = subprocess.run([sys.executable, "-c", code], check=True, capture_output=True, text=True)
    assert run.stdout == "plots need matplotlib, the optional extra `plot`: pip install 'raisedbody[plot]'\n"
