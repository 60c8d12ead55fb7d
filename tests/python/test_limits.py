"""Input without bounds, from Python: refused at once; the error names the field, the value and what is allowed.

The bounds of plan files are tested in Rust (tests/limits.rs).
"""

import itertools
import math
import os
import signal
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import Any

import numpy as np
import pytest

import raisedbody as rb


@contextmanager
def within(seconds: float) -> Iterator[None]:
    # What is refused must not hang: a busy machine may take ten times as long as a quiet one.
    start = time.monotonic()
    yield
    assert time.monotonic() - start < 10 * seconds


def deep(levels: int, inner: Any = 1, *, lists: bool = False) -> Any:
    for _ in range(levels):
        inner = [inner] if lists else {"a": inner}
    return inner


def test_a_long_file_is_not_read(tmp_path: Path) -> None:
    path = tmp_path / "long.toml"
    with path.open("wb") as file:
        file.truncate(1_000_000_000)
    with within(2), pytest.raises(rb.InputError, match=r"1000000000 bytes is out of range; allowed: at most 10000000"):
        rb.Plan.read(path)


@pytest.mark.parametrize("lists", [False, True])
def test_deep_nesting_is_refused(plan: rb.Plan, lists: bool) -> None:
    with within(2), pytest.raises(rb.InputError, match="nested too deeply") as caught:
        plan.replace(skin={"gauge": deep(100_000, lists=lists)})
    assert caught.value.field is not None
    assert caught.value.field.startswith("skin.gauge")


@pytest.mark.parametrize("path", ["survey.seams", "fit_out", "name"])
def test_a_range_without_end_is_refused_before_it_is_counted(plan: rb.Plan, path: str) -> None:
    value: Any = range(10**15)
    for key in reversed(path.split(".")):
        value = {key: value}
    with within(2), pytest.raises(rb.InputError, match=r"at most 10000 items") as caught:
        plan.replace(value)
    assert caught.value.field == path


@pytest.mark.parametrize(
    "call",
    [
        lambda plan: plan.sweep({"skin.gauge": itertools.count()}),
        lambda plan: plan.quote_jobs({"skin.gauge": itertools.repeat(16)}),
        lambda plan: rb.hanging_order(("a", "b") for _ in itertools.count()),
    ],
    ids=["sweep", "quotes", "laps"],
)
def test_values_without_end_are_refused(plan: rb.Plan, call: Callable[[rb.Plan], object]) -> None:
    with within(60), pytest.raises(rb.InputError, match="at most 10000000 values at once"):
        call(plan)


def test_a_sweep_has_a_most_of_combinations(plan: rb.Plan) -> None:
    axis = [f"{i} mm" for i in range(10_000)]
    with within(5), pytest.raises(rb.InputError, match="at most 1000000 combinations") as caught:
        plan.sweep({"raise.height": axis, "fastening.pitch": axis, "vehicle.track": axis})
    assert caught.value.field == "axes"


@pytest.mark.parametrize("draws", [10**9, 0, -1, 10**30])
def test_draws_have_a_most(build: rb.Evaluation, draws: int) -> None:
    quote = build.quote
    assert quote is not None
    with within(2), pytest.raises((rb.InputError, OverflowError)):
        quote.odds(draws=draws)


@pytest.mark.parametrize("value", [10**30, -(10**30), math.nan, math.inf, -math.inf, 2**63])
@pytest.mark.parametrize("path", ["skin.gauge", "schema", "service.years", "lift.supports", "raise.height"])
def test_numbers_that_no_plan_holds(plan: rb.Plan, path: str, value: float) -> None:
    entry: Any = value
    for key in reversed(path.split(".")):
        entry = {key: entry}
    with pytest.raises(rb.InputError) as caught:
        plan.replace(entry)
    assert caught.value.field == path


LAPS = {
    "outer_mm": 1.2, "outer_fu_mpa": 360, "diameter_mm": 4.8, "hole_mm": 4.9, "head_mm": 10.1, "rivet_shear_n": 6000,
    "rivet_tension_n": 4400, "pitch_mm": 50, "edge_mm": 12, "shear_n": 900,
}  # fmt: skip


def test_laps_have_a_most_of_cells() -> None:
    many = np.full(100_000, 50.0)
    with within(2), pytest.raises(rb.InputError, match="at most 100000000 cells in one call") as caught:
        rb.check_laps(**LAPS | {"pitch_mm": many[:, None], "edge_mm": many})
    assert caught.value.field == "shape"


@pytest.mark.parametrize("value", [math.nan, math.inf, -1.0])
def test_laps_of_no_number_are_never_passed(value: float) -> None:
    for name in LAPS:
        if name != "shear_n":
            assert rb.check_laps(**LAPS | {name: value}).verdict.item() != "passes", name


def test_ten_million_laps_are_worked_out() -> None:
    with within(60):
        laps = rb.check_laps(**LAPS | {"pitch_mm": [50.0] * 10_000_000})
    assert laps.verdict.shape == (10_000_000,)
    assert set(np.unique(laps.verdict[:10]).tolist()) == {"passes"}


SHEETS = [{"length": "3 m", "width": "1.5 m", "price": "88 USD"}]
SHEAR = {"longest_cut": "20 m", "cut_time": "0 min"}


@pytest.mark.parametrize("count", [10**9, 2**63 - 1, 10**30])
def test_blanks_have_a_most(count: int) -> None:
    blanks = [{"name": "p", "length": "300 mm", "width": "200 mm", "count": count}]
    with within(2), pytest.raises(rb.InputError) as caught:
        rb.SheetCuts(sheets=SHEETS, blanks=blanks, shear=SHEAR)
    assert caught.value.field is not None
    assert caught.value.field.startswith("blanks")


def test_rows_to_cut_have_a_most() -> None:
    rows = [{"name": f"p{i}", "length": "300 mm", "width": "200 mm"} for i in range(10_001)]
    with within(5), pytest.raises(rb.InputError, match="10001 items is out of range; allowed: at most 10000 items"):
        rb.SheetCuts(sheets=SHEETS, blanks=rows, shear=SHEAR)


def interrupted(call: Callable[[], object]) -> float:
    """Seconds from an interruption to the end of a call; what the call does about it is its own."""
    at: list[float] = []

    def interrupt() -> None:
        at.append(time.monotonic())
        os.kill(os.getpid(), signal.SIGINT)

    # A job in the background of a shell is started with interruptions ignored.
    before = signal.signal(signal.SIGINT, signal.default_int_handler)
    timer = threading.Timer(0.3, interrupt)
    timer.start()
    try:
        with suppress(KeyboardInterrupt):
            call()
    finally:
        timer.cancel()
        signal.signal(signal.SIGINT, before)
    end = time.monotonic()
    assert at, "it was over before it could be interrupted"
    return end - at[0]


@pytest.mark.skipif(os.name == "nt", reason="interrupts by SIGINT")
@pytest.mark.parametrize("name", ["cut sheets", "odds", "sweep"])
def test_a_long_call_can_be_interrupted(name: str, build: rb.Evaluation) -> None:
    quote = build.quote
    assert quote is not None
    blanks = [{"name": f"p{i}", "length": f"{300 + i} mm", "width": f"{200 + i} mm", "count": 3} for i in range(300)]
    heights, tracks = [f"{200 + i / 10} mm" for i in range(3000)], [f"{1900 + i} mm" for i in range(99)]
    calls: dict[str, Callable[[], object]] = {
        "cut sheets": lambda: rb.SheetCuts(sheets=SHEETS, blanks=blanks, shear=SHEAR),
        "odds": lambda: quote.odds(draws=20_000_000),
        "sweep": lambda: build.plan.sweep({"raise.height": heights, "vehicle.track": tracks}),
    }
    assert interrupted(calls[name]) < 5
