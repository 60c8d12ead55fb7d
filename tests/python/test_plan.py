"""A plan, its evaluation and comparisons as a user works with them."""

import math
import multiprocessing
from concurrent.futures import ProcessPoolExecutor, ThreadPoolExecutor
from pathlib import Path

import pandas as pd
import polars as pl
import pytest

import raisedbody as rb

VERDICTS = {"passes", "fails", "outside the rule's range", "not assessed"}


def test_evaluation_answers_the_main_questions(build: rb.Evaluation) -> None:
    assert build.verdict == "outside the rule's range"  # the 17/64 in hole, by EN 1993-1-3
    assert build.overall_height_mm == pytest.approx(3420)
    assert build.headroom_mm == pytest.approx(2080)
    assert build.mass.after_kg == pytest.approx(
        build.mass.before_kg + build.mass.added_kg - build.mass.removed_kg, abs=1e-6
    )
    assert sum(build.mass.axles_after_kg) == pytest.approx(build.mass.after_kg)
    assert build.price.endswith(" USD")
    assert build.price_open_items == ()
    assert sum(build.verdict_counts.values()) == build.checks.height
    assert "certification" in build.cautions[0]
    assert str(build).startswith("Travelling library")
    assert "F_b,Rd" in build.explain()


def test_tables_go_into_dataframes(build: rb.Evaluation) -> None:
    for table in (build.checks, build.joints, build.masses, build.order, build.lines, build.sheets, build.tasks):
        assert pd.DataFrame(table).shape == (table.height, len(table))
        assert pl.DataFrame(table).shape == (table.height, len(table))
    checks = pd.DataFrame(build.checks)
    assert set(checks["verdict"]) <= VERDICTS
    assert (checks["unit"] != "").sum() > 10
    holes = int(pl.DataFrame(build.lines)["holes_count"].sum())
    assert holes == build.rivets


def test_table_is_a_value(build: rb.Evaluation) -> None:
    table = build.checks
    assert table == build.checks
    assert table != build.order
    assert "NaN" not in table._repr_html_()
    assert len(list(table.rows())) == table.height
    assert repr(table).startswith(f"<Table of {table.height} rows")
    assert any(math.isnan(u) for u in build.joints["utilisation"])  # outside the range there is no number


def test_table_escapes_what_it_shows() -> None:
    import numpy as np

    assert "&lt;script&gt;" in rb.Table(name=np.array(["<script>"]))._repr_html_()


def test_drawing_and_notebook_views(plan: rb.Plan, build: rb.Evaluation) -> None:
    left = build.drawing("left").svg
    assert left.startswith("<svg")
    assert "OUTSIDE" in left
    assert "L-A1" in left
    assert "R-A1" in build.drawing("right").svg
    assert "<svg" in build._repr_html_()
    assert "Travelling library" in plan._repr_html_()
    hostile = plan.replace(name="<script>alert(1)</script>")
    for view in (hostile._repr_html_(), hostile.evaluate()._repr_html_(), hostile.evaluate().drawing("left").svg):
        assert "<script>" not in view
    with pytest.raises(rb.InputError, match="left"):
        build.drawing("top")


def test_compare_puts_what_differs_first(plan: rb.Plan) -> None:
    both = rb.compare({"18 ga": plan, "16 ga": plan.replace(skin={"gauge": 16})})
    table = both.table
    assert list(table)[:4] == ["name", "skin.gauge", "verdict", "price"]
    assert table["skin_mass_kg"][1] > table["skin_mass_kg"][0]
    assert table["rivets_count"][0] == table["rivets_count"][1]
    assert len(both) == 2
    assert both.names == ("18 ga", "16 ga")
    assert "16 ga" in repr(both)
    assert "<table>" in both._repr_html_()
    assert both.to_dict()["16 ga"]["skin.gauge"] == "16"
    assert pl.DataFrame(table).height == 2
    with pytest.raises(rb.InputError):
        rb.compare({})
    with pytest.raises(TypeError, match="Evaluation"):
        rb.compare({"a": plan.evaluate()})  # type: ignore[dict-item]


def test_replace_leaves_the_old_plan_alone(plan: rb.Plan) -> None:
    other = plan.replace({"skin": {"thickness": "1.5 mm"}}, raise_={"height": "300 mm"})
    assert other != plan
    assert other.to_dict()["raise"]["height"] == "300 mm"
    assert "gauge" not in other.to_dict()["skin"]
    assert plan.to_dict()["skin"]["gauge"] == 18


def test_write_is_whole_and_does_not_overwrite(plan: rb.Plan, tmp_path: Path) -> None:
    path = tmp_path / "plan.toml"
    plan.write(path)
    assert rb.Plan.read(path) == plan
    with pytest.raises(FileExistsError):
        plan.write(path)
    plan.replace(name="Other").write(path, overwrite=True)
    assert rb.Plan.read(path).name == "Other"
    assert [p.name for p in tmp_path.iterdir()] == ["plan.toml"]


def test_own_catalogue_rows_show(plan: rb.Plan, tmp_path: Path) -> None:
    (tmp_path / "ours.toml").write_text(
        'rivet = [{ product = "our rivet", diameter = "6.4 mm", shear = "7 kN", tension = "6 kN", head = "13 mm", '
        'hole_least = "6.5 mm", sealed = true, structural = true, body = "steel", mandrel = "steel", '
        'source = "our test report 7", standing = "given by the user" }]'
    )
    text = plan.to_text() + '\n[catalogue]\nfiles = ["ours.toml"]\n'
    ours = rb.Plan.from_text(text, folder=tmp_path)
    assert any("our rivet" in line for line in ours.evaluate().overrides)
    assert rb.Plan.from_text(ours.to_text()) == ours, "the rows are part of the plan now"


def _price(plan: rb.Plan) -> str | None:
    return plan.evaluate().price


def test_threads_and_processes(plan: rb.Plan) -> None:
    with ThreadPoolExecutor(8) as pool:
        assert len(set(pool.map(_price, [plan] * 40))) == 1
    with ProcessPoolExecutor(2, mp_context=multiprocessing.get_context("spawn")) as pool:
        assert set(pool.map(_price, [plan] * 4)) == {_price(plan)}


def test_json_schema_describes_the_plan() -> None:
    schema = rb.Plan.json_schema()
    assert schema["properties"]["skin"]["properties"]["coating"]["description"] == "Coating designation."
    assert schema["additionalProperties"] is False


def test_blanks_say_how_they_are_cut(plan: rb.Plan, build: rb.Evaluation) -> None:
    names = [name for row in build.blanks.rows() for name in row["sheets"].split("; ")]
    assert sorted(names) == sorted([*build.sheets["id"], *build.end_panels["id"]])
    assert sum(build.blanks["count"]) == build.sheets_count
    # Both edges of a cap curve in the flat: none stays the mill's.
    edges = {row["id"]: row["factory_edge"] for row in build.sheets.rows()}
    edges |= {name: "any" for name in build.end_panels["id"] if "cap" in name}
    for row in build.blanks.rows():
        assert {edges.get(name, "lower") for name in row["sheets"].split("; ")} == {row["factory_edge"]}
    assert set(build.blanks["grain"]) == {"level"}
    assert {"skin.grain", "skin.finished_face"} <= set(build.assumed["field"])
    own = plan.replace(skin={"grain": "upright", "finished_face": "outside"}).evaluate()
    assert (set(own.blanks["grain"]), set(own.blanks["finished_face"])) == ({"upright"}, {"outside"})
    assert not {"skin.grain", "skin.finished_face"} & set(own.assumed["field"])
    with pytest.raises(rb.InputError) as caught:
        plan.replace(skin={"grain": "lengthways"})
    assert caught.value.field == "skin.grain"


def test_an_entry_is_taken_out(plan: rb.Plan) -> None:
    bare = plan.without("end_caps").without("shop.scrape_time")
    assert "end_caps" not in bare.to_dict()
    assert "scrape_time" not in bare.to_dict()["shop"]
    assert bare.evaluate().end_caps is None
    for path, words in [("end_cap", "no such entry"), ("skin.gauge.x", "no such entry"), ("raise", "raise: missing")]:
        with pytest.raises(rb.InputError, match=words):
            plan.without(path)
