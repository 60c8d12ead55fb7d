"""Quotes and their odds: money beside Python's decimal, distributions beside SciPy, the letter, what is refused."""

import pickle
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction

import numpy as np
import pytest
from scipy import stats

import raisedbody as rb


@pytest.fixture(scope="module")
def build() -> rb.Evaluation:
    return rb.Plan.read("examples/mobile_library.toml").evaluate()


@pytest.fixture(scope="module")
def quote(build: rb.Evaluation) -> rb.Quote:
    quote = build.quote
    assert quote is not None
    return quote


def test_money_is_that_of_pythons_decimal(build: rb.Evaluation, quote: rb.Quote) -> None:
    """Quantities and prices as text, worked out anew with `decimal` and exact fractions."""
    rows = quote.to_dict()["lines"]
    cent = Decimal("0.01")
    total = Decimal(0)
    for row in rows:
        amount = Decimal(str(row["amount"])).quantize(cent)
        quantity, price = Fraction(str(row["quantity"])), Fraction(str(row["unit_price"]))
        exact = Decimal((quantity * price).numerator) / Decimal((quantity * price).denominator)
        if not row["note"].startswith("least charge"):
            # Prices by the foot are converted exactly and shown as the nearest binary number: a cent at the most.
            assert abs(exact.quantize(cent, ROUND_HALF_UP) - amount) <= cent, row["name"]
        if row["basis"] == "share":
            assert (quantity * Fraction(total)) == pytest.approx(float(amount), abs=0.0051)
        total += amount
    assert Decimal(quote.total) == total
    assert build.price == f"{quote.total} {quote.currency}"
    # In any order, to the cent; without tax the stages come to the same.
    assert sum(sorted(Decimal(str(row["amount"])).quantize(cent) for row in rows)) == total
    assert sum(Decimal(str(p)).quantize(cent) for p in quote.stages["price"]) == total - Decimal(quote.tax)


def test_lines_follow_the_hours_and_the_takeoff(build: rb.Evaluation, quote: rb.Quote) -> None:
    lines = quote.lines
    labour = lines["basis"] == "labour"
    assert lines["quantity"][labour].sum() == pytest.approx(build.labour_h, abs=0.02)
    rivets = lines["quantity"][lines["name"] == "rivets, spares included"][0]
    assert rivets >= build.rivets
    assert set(lines["stage"]) == {
        "strip and lift",
        "posts and inserts",
        "new skin",
        "priming and painting",
        "whole job",
    }
    assert (lines["from"] != "").all()


@pytest.mark.parametrize(
    ("shape", "dist"),
    [
        ({"shape": "triangular", "least": "80 %", "likely": "110 %", "most": "160 %"}, stats.triang(0.375, 0.8, 0.8)),
        ({"shape": "PERT", "least": "80 %", "likely": "100 %", "most": "160 %"}, stats.beta(2, 4, 0.8, 0.8)),
        (
            {"shape": "lognormal", "low": "90 %", "high": "130 %"},
            stats.lognorm(np.log(1.3 / 0.9) / (2 * stats.norm.ppf(0.9)), scale=np.sqrt(0.9 * 1.3)),
        ),
    ],
)
def test_shapes_are_those_of_scipy(shape: dict[str, str], dist: stats.rv_continuous) -> None:
    plan = rb.Plan.read("examples/mobile_library.toml").replace(odds=[{"name": "all", "of": ["labour"], **shape}])
    build = plan.evaluate()
    row = next(build.causes.rows())
    assert row["mean"] == pytest.approx(dist.mean(), rel=1e-9)
    assert row["sd"] == pytest.approx(dist.std(), rel=1e-9)
    for share in (0.1, 0.5, 0.9):
        assert row[f"p{round(100 * share)}"] == pytest.approx(dist.ppf(share), rel=1e-6)
    quote = build.quote
    assert quote is not None
    odds = quote.odds(draws=200_000, seed=11)
    # One cause on all of labour: totals are a straight function of it, so that Kolmogorov and Smirnov's test applies.
    lines = quote.lines
    base = lines["amount"][lines["basis"] != "share"].sum()
    part = float(quote.total) / base * lines["amount"][lines["basis"] == "labour"].sum()
    shares = (odds.totals - (float(quote.total) - part)) / part
    assert stats.kstest(shares[::20], dist.cdf).pvalue > 0.001
    assert odds.mean == pytest.approx(float(quote.total) + part * (dist.mean() - 1), rel=1e-3)


def test_the_price_that_holds(quote: rb.Quote) -> None:
    odds = quote.odds(draws=50_000, seed=3)
    totals = odds.totals
    assert odds.draws == len(totals) == 50_000
    assert (np.diff(totals) >= 0).all()
    for share in (0.1, 0.5, 0.8, 0.9):
        price = float(odds.price(share))
        assert (totals <= price + 1e-9).mean() >= share
        assert (totals <= price - 0.02).mean() < share
        assert price == pytest.approx(np.quantile(totals, share, method="inverted_cdf"), abs=0.011)
    assert odds.holds == pytest.approx((totals <= float(quote.total)).mean())
    assert odds.mean == pytest.approx(totals.mean(), rel=1e-9)
    assert odds.sd == pytest.approx(totals.std(), rel=1e-6)
    drivers = odds.drivers
    assert (np.diff(drivers["of_variance"]) <= 0).all()
    assert 0.9 < drivers["of_variance"].sum() < 1.1
    assert drivers["cause"][0] == "a bad week: weather, illness"
    assert odds == quote.odds(draws=50_000, seed=3)
    assert odds != quote.odds(draws=50_000, seed=4)
    assert "suffices in" in repr(odds)
    assert "<table>" in odds._repr_html_()
    assert list(odds.quantiles["share"]) == [0.1, 0.5, 0.8, 0.9, 0.95]


def test_they_travel(quote: rb.Quote) -> None:
    assert pickle.loads(pickle.dumps(quote)) == quote
    odds = quote.odds(draws=1000)
    assert pickle.loads(pickle.dumps(odds)) == odds
    assert quote.to_dict()["total"] == quote.total
    assert odds.to_dict()["draws"] == 1000
    assert repr(quote) == f"<Quote: {quote.total} USD>"
    assert "by itself" not in str(quote)
    assert "posts and inserts" in str(quote)


def test_the_letter(quote: rb.Quote) -> None:
    page = quote.letter()
    assert page.startswith("<!DOCTYPE html>")
    assert f"{quote.total} USD" in page
    assert all(line in page for line in ("strip and lift", "Not in the price", "no offer"))
    assert "margin</td>" not in page
    assert quote.valid_until == "2026-12-31"
    assert not quote.expired


def test_what_has_no_price(build: rb.Evaluation) -> None:
    plan = rb.Plan.read("examples/workshop_bus.toml")
    assert plan.evaluate().quote is None
    assert plan.evaluate().to_dict()["quote"] is None
    open_plan = plan.replace(prices={"labour": "80 USD/h"})
    quote = open_plan.evaluate().quote
    assert quote is not None
    assert "sheet" in quote.open_items
    assert all(amount > 0 for amount in quote.lines["amount"])
    assert any("not priced yet" in line for line in quote.cautions)
    with pytest.raises(rb.InputError, match="odds: missing"):
        quote.odds()


@pytest.mark.parametrize(
    ("arguments", "words"),
    [({"draws": 5}, "100 to 20000000"), ({"draws": 100_000_000}, "100 to 20000000")],
)
def test_what_cannot_be_drawn(quote: rb.Quote, arguments: dict[str, int], words: str) -> None:
    with pytest.raises(rb.InputError, match=words):
        quote.odds(**arguments)
    odds = quote.odds(draws=100)
    with pytest.raises(rb.InputError, match="share: NaN is out of range; allowed: a finite number"):
        odds.price(float("nan"))
    for share in (0, 1, -1):
        with pytest.raises(rb.InputError, match="more than 0 and less than 1"):
            odds.price(share)


def test_drawing_can_be_interrupted(quote: rb.Quote) -> None:
    def enough(done: int, of: int) -> None:
        raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        quote.odds(draws=1000, progress=enough)


def test_options_side_by_side() -> None:
    plan = rb.Plan.read("examples/mobile_library.toml")
    compared = rb.compare({"18 ga, zinc": plan, "16 ga, zinc": plan.replace(skin={"gauge": 16})})
    lines = compared.quotes
    assert lines["18 ga, zinc"].sum() == pytest.approx(float(compared.table["price"][0].split()[0]), abs=0.01)
    known = ~np.isnan(lines["16 ga, zinc"])
    more = (lines["16 ga, zinc"] - lines["18 ga, zinc"])[known]
    assert lines["difference, 16 ga, zinc"][known] == pytest.approx(more, abs=1e-9)
    assert "drill and deburr holes" in lines["line"]
    # How long a bit lasts in 16 gauge is not known: that is not nought.
    bits = lines["line"] == "pilot bits"
    assert np.isnan(lines["16 ga, zinc"][bits]).all()
    assert np.isnan(lines["difference, 16 ga, zinc"][bits]).all()
    with pytest.raises(rb.InputError, match="give the plan another"):
        _ = rb.compare({"line": plan, "b": plan}).quotes
