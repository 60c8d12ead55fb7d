"""Many quotes: frames of three libraries, streams, bad rows, and the same under another engine."""

import tracemalloc
from collections.abc import Callable, Iterator
from typing import Any

import numpy as np
import pandas as pd
import polars as pl
import pyarrow as pa
import pytest

import raisedbody as rb

JOBS = {
    "job": ["a", "b", "c", "d"],
    "skin.gauge": [16, 18, None, 99],
    "raise.height": ["250 mm", None, "300 mm", "10 in"],
}


@pytest.fixture(scope="module")
def plan() -> rb.Plan:
    return rb.Plan.read("examples/workshop_bus.toml").replace(prices={"labour": "80 USD/h", "rivet": "0.5 USD"})


MAKERS: list[Callable[[dict[str, list[Any]]], Any]] = [pd.DataFrame, pl.DataFrame, pa.table]


def columns(frame: Any) -> dict[str, list[Any]]:
    if isinstance(frame, pd.DataFrame):
        return frame.to_dict("list")  # type: ignore[return-value]
    return frame.to_dict(as_series=False) if isinstance(frame, pl.DataFrame) else frame.to_pydict()


@pytest.mark.parametrize("make", MAKERS)
def test_each_library_gets_its_own_back(plan: rb.Plan, make: Callable[[dict[str, list[Any]]], Any]) -> None:
    jobs = make(JOBS)
    quotes = rb.quote_batch(jobs, plan)
    assert type(quotes) is type(jobs)
    got = columns(quotes)
    assert list(got)[: len(JOBS)] == list(JOBS)
    for row, changes in enumerate(
        [
            {"skin": {"gauge": 16}, "raise": {"height": "250 mm"}},
            {"skin": {"gauge": 18}},
            {"raise": {"height": "300 mm"}},
        ]
    ):
        build = plan.replace(changes).evaluate()
        assert build.quote is not None
        assert got["price"][row] == build.quote.total
        assert got["currency"][row] == "USD"
        assert got["labour_h"][row] == build.labour_h
        assert got["rivets_count"][row] == build.rivets
        assert got["sheets_count"][row] == build.sheets_count
        assert got["skin_mass_kg"][row] == rb.compare({"own": plan.replace(changes)}).table["skin_mass_kg"][0]
        assert got["error"][row] == ""
    assert "skin.gauge" in got["error"][3]
    assert got["price"][3] == ""
    assert np.isnan(got["labour_h"][3])


def test_a_whole_row_is_the_evaluation(plan: rb.Plan) -> None:
    quotes = rb.quote_batch(pd.DataFrame({"skin.gauge": [16]}), plan, whole=True)
    build = plan.replace(skin={"gauge": 16}).evaluate()
    assert quotes["verdict"][0] == build.verdict
    assert quotes["checks_count"][0] == len(build.checks["name"])


def test_columns_may_have_names_of_their_own(plan: rb.Plan) -> None:
    jobs = pl.DataFrame({"gauge": [16], "note.x": ["kept"]})
    quotes = rb.quote_batch(jobs, plan, entries={"gauge": "skin.gauge"})
    assert quotes["note.x"].to_list() == ["kept"]
    assert quotes["sheet_thickness_mm"][0] == pytest.approx(1.52, abs=0.1)


@pytest.mark.parametrize("index", [[7, 3], pd.MultiIndex.from_tuples([("x", 1), ("y", 2)])])
def test_a_pandas_index_stays(plan: rb.Plan, index: Any) -> None:
    jobs = pd.DataFrame({"skin.gauge": [16, 18]}, index=index)
    quotes = rb.quote_batch(jobs, plan)
    assert quotes.index.equals(jobs.index)
    assert quotes["skin_mass_kg"].is_monotonic_decreasing


def test_a_stream_is_made_as_it_is_asked_for(plan: rb.Plan) -> None:
    asked: list[int] = []

    def frames() -> Iterator[pa.RecordBatch]:
        for i in range(4):
            asked.append(i)
            yield pa.record_batch({"skin.gauge": [16, 18, 20]})

    quotes = rb.quote_batch(frames(), plan)
    assert asked == []
    first = next(quotes)
    assert asked == [0]
    assert isinstance(first, pa.Table)
    assert sum(part.num_rows for part in quotes) == 9
    reader = pa.RecordBatchReader.from_batches(
        pa.schema({"skin.gauge": pa.int64()}), [pa.record_batch({"skin.gauge": [16]})]
    )
    assert next(rb.quote_batch(reader, plan)).num_rows == 1


def test_a_long_stream_takes_no_more_memory_than_a_short_one(plan: rb.Plan) -> None:
    """What Python and NumPy hold; the peak of a process over a million rows is measured in `benches/quotes.py`."""

    def peak(count: int) -> int:
        frames = (pl.DataFrame({"skin.gauge": [16, 18, 99] * 200}) for _ in range(count))
        tracemalloc.start()
        for _ in rb.quote_batch(frames, plan):
            pass
        _, most = tracemalloc.get_traced_memory()
        tracemalloc.stop()
        return most

    assert peak(12) < 1.5 * peak(3)


@pytest.mark.parametrize("make", MAKERS)
def test_an_empty_table(plan: rb.Plan, make: Callable[[dict[str, Any]], Any]) -> None:
    empty = {"skin.gauge": pa.array([], pa.int64())} if make is pa.table else {"skin.gauge": []}
    quotes = rb.quote_batch(make(empty), plan)
    full = rb.quote_batch(make({"skin.gauge": [16]}), plan)
    assert len(quotes) == 0
    assert list(columns(quotes)) == list(columns(full))
    if make is not pd.DataFrame:
        kinds = quotes.schema.types if make is pa.table else list(quotes.schema.values())
        others = full.schema.types if make is pa.table else list(full.schema.values())
        assert list(kinds)[1:] == list(others)[1:]


def test_gaps_in_columns_of_numbers_leave_the_plan_as_it_is(plan: rb.Plan) -> None:
    quotes = rb.quote_batch(pd.DataFrame({"skin.gauge": [16.0, np.nan]}), plan)
    assert list(quotes["error"]) == ["", ""]
    assert quotes["skin_mass_kg"][0] > quotes["skin_mass_kg"][1]


@pytest.mark.parametrize(
    "column",
    [
        pd.array([16, None], dtype="Int64"),
        pd.Series([16, pd.NA], dtype=object),
        pd.Series([16, pd.NaT], dtype=object),
        pd.Series([16, None], dtype=object),
        pl.Series([16, None]),
    ],
)
def test_every_kind_of_gap(plan: rb.Plan, column: Any) -> None:
    jobs = (
        pl.DataFrame({"skin.gauge": column}) if isinstance(column, pl.Series) else pd.DataFrame({"skin.gauge": column})
    )
    assert list(rb.quote_batch(jobs, plan)["error"]) == ["", ""]


def test_wrong_types_are_faults_of_their_rows(plan: rb.Plan) -> None:
    odd = [16, "16", 16.5, True, object(), [16], 10**30, {"a": 1}]
    quotes = rb.quote_batch(pd.DataFrame({"skin.gauge": pd.Series(odd, dtype=object)}), plan)
    assert quotes["error"][0] == ""
    assert all("skin.gauge" in error for error in quotes["error"][1:]), list(quotes["error"])


def test_many_bad_rows(plan: rb.Plan) -> None:
    quotes = rb.quote_batch(pl.DataFrame({"skin.gauge": [99] * 60_000}), plan, progress=False)
    assert quotes.height == 60_000
    assert quotes["error"].str.contains("skin.gauge").all()


@pytest.mark.parametrize(
    ("jobs", "entries", "error", "words"),
    [
        (pd.DataFrame({"job": ["a"]}), None, rb.InputError, "no column is an entry"),
        (pd.DataFrame({"skin.gage": [16]}), None, rb.InputError, "did you mean"),
        (pd.DataFrame({"g": [16]}), {"h": "skin.gauge"}, rb.InputError, "there is no column h"),
        (
            pd.DataFrame({"g": [16], "h": [18]}),
            {"g": "skin.gauge", "h": "skin.gauge"},
            rb.InputError,
            "both change this",
        ),
        (pd.DataFrame({"skin.gauge": [16], "price": [1]}), None, rb.InputError, "a result has this name"),
        (pl.LazyFrame({"skin.gauge": [16]}), None, TypeError, "lazy frame"),
        ({"skin.gauge": [16]}, None, TypeError, "iterable of dataframes"),
        (5, None, TypeError, "int"),
    ],
)
def test_what_is_no_table_of_jobs(
    plan: rb.Plan,
    jobs: Any,
    entries: dict[str, str] | None,
    error: type[Exception],
    words: str,
) -> None:
    with pytest.raises(error, match=words):
        rb.quote_batch(jobs, plan, entries=entries)


def test_a_stream_of_something_else(plan: rb.Plan) -> None:
    with pytest.raises(TypeError, match="every item of a stream"):
        next(rb.quote_batch([5], plan))


def test_progress_and_interruption(plan: rb.Plan) -> None:
    told: list[tuple[int, int]] = []
    jobs = pl.DataFrame({"skin.gauge": [16, 18] * 30_000})
    rb.quote_batch(jobs, plan, progress=lambda done, of: told.append((done, of)))
    assert told[0] == (0, 60_000)
    assert told[-1] == (60_000, 60_000)
    assert [done for done, _ in told] == sorted(done for done, _ in told)

    def enough(done: int, of: int) -> None:
        raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        rb.quote_batch(jobs, plan, progress=enough)


def test_the_same_under_dask(plan: rb.Plan) -> None:
    """Partitions worked out by two processes of a local cluster come to what one call comes to."""
    dd = pytest.importorskip("dask.dataframe")
    distributed = pytest.importorskip("distributed")
    jobs = pd.DataFrame(
        {"skin.gauge": [16, 18, 20, 99] * 50, "fastening.pitch": [None, *(f"{80 + i} mm" for i in range(39))] * 5}
    )
    expected = rb.quote_batch(jobs, plan)
    with (
        distributed.LocalCluster(n_workers=2, threads_per_worker=1, processes=True, dashboard_address=None) as cluster,
        distributed.Client(cluster),
    ):
        parts = dd.from_pandas(jobs, npartitions=4)
        meta = rb.quote_batch(jobs.head(0), plan)
        quotes = parts.map_partitions(rb.quote_batch, plan, meta=meta, progress=False).compute()
    pd.testing.assert_frame_equal(quotes.astype(expected.dtypes), expected)
