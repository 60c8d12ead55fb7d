"""Metals in contact, details and families of skin as a user works with them."""

import pickle

import pytest

import raisedbody as rb

WORKSHOP = "examples/workshop_bus.toml"


def build(**changes):
    return rb.Plan.read(WORKSHOP).replace(**changes).evaluate()


# Differences of the anodic index after MIL-STD-1250A, harsh limit 0.15 V (vk6ysf.com/galvanic_table.htm).
@pytest.mark.parametrize(
    ("first", "second", "apart_v", "verdict"),
    [
        ("zinc plating", "hot-dip zinc", 0.05, "passes"),
        ("aluminium", "hot-dip zinc", 0.30, "fails"),
        ("aluminium", "carbon steel", 0.05, "passes"),
        ("stainless steel 304", "hot-dip zinc", 0.70, "fails"),
        ("copper", "galvanized steel", 0.85, "fails"),
    ],
)
def test_couples(first, second, apart_v, verdict) -> None:
    pair = rb.GalvanicPair(first, second)
    assert pair.index_difference_v == pytest.approx((apart_v, apart_v))
    assert (pair.verdict, pair.exposure, pair.limit_v) == (verdict, "harsh", 0.15)
    assert pair.check["demand"][0] == pytest.approx(apart_v)
    assert "MIL-STD-889" in pair.explain()


def test_sources_are_kept_apart() -> None:
    pair = rb.GalvanicPair("aluminium", "carbon steel", area_first="126 mm2", area_second="2 m2")
    assert pair.gap_v == pytest.approx((0.03, 0.40))
    assert pair.gap_sources == 3
    assert pair.area_ratio == pytest.approx(2 / 126e-6)
    assert "bad" in pair.areas
    assert pair.warning is not None
    assert set(pair.sources["eaten"]) == {"aluminium"}
    assert "anodic index" in pair.sources["series"]
    either = rb.GalvanicPair("cadmium", "aluminium 6061")
    assert either.eaten == "may be either"
    assert either.area_ratio is None
    assert rb.GalvanicPair("stainless steel 316", "steel").index_difference_v is None


def test_a_pair_is_a_value() -> None:
    pair = rb.GalvanicPair("copper", "zinc", exposure="normal", area_first="400 mm2", area_second="1 m2")
    assert pickle.loads(pickle.dumps(pair)) == pair
    assert eval(repr(pair), {"GalvanicPair": rb.GalvanicPair}) == pair
    values = pair.to_dict()
    assert values["area_sources"] == pair.area_sources
    assert any("from memory" in source for source in pair.area_sources)
    assert values["eaten"] == "zinc"
    assert values["sources"][0]["series"] == "anodic index"
    assert values["remedies"][0]["text"].startswith("isolate")
    with pytest.raises(AttributeError):
        pair.exposure = "harsh"  # type: ignore[misc]


@pytest.mark.parametrize(
    ("make", "field", "words"),
    [
        (lambda: rb.GalvanicPair("coper", "zinc"), "first", '"copper"'),
        (lambda: rb.GalvanicPair("copper", "zinc, active"), "second", 'write "zinc"'),
        (lambda: rb.GalvanicPair("copper", "zinc", exposure="mild"), "exposure", '"harsh"'),
        (lambda: rb.GalvanicPair("copper", "zinc", area_first="1 m2"), "area_second", "ratio"),
        (lambda: rb.GalvanicPair("copper", "zinc", area_first="0 m2", area_second="1 m2"), "area_first", "0 m2"),
        (lambda: rb.unpainted_allowed("tin"), "family", "family of skin"),
        (lambda: rb.Sheet(gauge=10, coating="EN Z275"), "gauge", "EN 10346:2015"),
    ],
)
def test_refused(make, field, words) -> None:
    with pytest.raises(rb.InputError) as caught:
        make()
    assert [problem.field for problem in caught.value.problems] == [field]
    assert words in str(caught.value)


def test_every_problem_at_once() -> None:
    with pytest.raises(rb.InputError) as caught:
        rb.GalvanicPair("coper", "zink", exposure="mild")
    assert [problem.field for problem in caught.value.problems] == ["exposure", "first", "second"]
    with pytest.raises(rb.QuantityError):
        rb.GalvanicPair("copper", "zinc", area_first="4", area_second="5 kg")


def test_pairs_of_a_plan() -> None:
    pairs = build(
        fastening={"plating": "zinc plating"},
        contact=[{"name": "earth lug", "a": "copper", "area_a": "400 mm2", "area_b": "1 m2"}],
    ).pairs
    assert pairs["name"].tolist() == [
        "rivet body, skin",
        "mandrel, rivet body",
        "skin, posts",
        "skin, tube behind edges",
        "earth lug",
    ]
    assert pairs["verdict"][0] == "passes"
    assert pairs["area_ratio"][4] == pytest.approx(0.0004)
    assert pairs["eaten"][4] == "hot-dip zinc"
    assert "isolate" in pairs["remedies"][4]
    open_pairs = build().pairs
    assert open_pairs["verdict"][0] == "not assessed"
    assert "fastening.plating" in open_pairs["missing"][0]


def test_details_of_a_plan() -> None:
    evaluation = build()
    details = evaluation.details
    assert set(details["detail"]) == {"lap", "hem", "cut edge", "drilled hole", "weld"}
    assert details["quantity"][details["detail"] == "drilled hole"].sum() == evaluation.rivets
    assert "pairs" in evaluation.to_dict()
    assert "metals in contact" in evaluation._repr_html_()
    assert "zinc-rich" in str(evaluation)


def test_tables() -> None:
    families = rb.catalogue_table("family_property")
    for family, allowed in zip(families["family"].tolist(), families["unpainted_outdoors"].tolist(), strict=True):
        assert rb.unpainted_allowed(family) is allowed
    coatings = rb.catalogue_table("coating")
    assert coatings["designation"][coatings["electrolytic"]].tolist() == ["40G40G", "13Z13Z"]
    assert rb.catalogue_table("galvanic_limit")["limit_v"].tolist() == [0.15, 0.25, 0.50]
    potentials = rb.catalogue_table("sea_potential")
    steel = potentials["entry"] == "carbon steel"
    assert potentials["least_v"][steel].tolist() == [-0.61]
    assert len(rb.catalogue_table("galvanic_order")["first"]) == 21
    assert "carbon steel" in rb.catalogue_table("galvanic_metal")["name"]
    assert rb.catalogue_table("coated_range")["below_mm"].tolist() == [3.0]
