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
from contextlib import contextmanager
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
    with within(2), pytest.raises(rb.InputError) as caught:
        quote.odds(draws=draws)
    assert (caught.value.field, caught.value.value) == ("draws", str(draws))


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


def interrupted(call: Callable[[], object], *, raises: bool = True) -> float:
    """Seconds from an interruption to the end of a call."""
    at: list[float] = []

    def interrupt() -> None:
        at.append(time.monotonic())
        os.kill(os.getpid(), signal.SIGINT)

    # A job in the background of a shell is started with interruptions ignored.
    before = signal.signal(signal.SIGINT, signal.default_int_handler)
    timer = threading.Timer(0.1, interrupt)
    timer.start()
    try:
        if raises:
            with pytest.raises(KeyboardInterrupt):
                call()
        else:
            call()
    finally:
        timer.cancel()
        signal.signal(signal.SIGINT, before)
    end = time.monotonic()
    assert at, "it was over before it could be interrupted"
    return end - at[0]


@pytest.mark.skipif(os.name == "nt", reason="interrupts by SIGINT")
def test_a_search_that_is_interrupted_gives_the_best_so_far() -> None:
    blanks = [{"name": f"p{i}", "length": f"{300 + i} mm", "width": f"{200 + i} mm", "count": 3} for i in range(300)]
    assert interrupted(lambda: rb.SheetCuts(sheets=SHEETS, blanks=blanks, shear=SHEAR), raises=False) < 10


def tangle(nodes: int) -> tuple[list[list[float]], list[tuple[int, int]]]:
    """A plane of nodes in which far ones are tied together too: nothing of its stiffness is nought."""
    places = [[1000.0 * (i % 30), 1000.0 * (i // 30)] for i in range(nodes)]
    near = [(i, i + 1) for i in range(nodes - 1)]
    return places, near + [
        (i, (i * 7919 + nodes // 2) % nodes) for i in range(nodes) if (i * 7918 + nodes // 2) % nodes
    ]


def long_calls(build: rb.Evaluation) -> dict[str, Callable[[], object]]:
    """Calls that take seconds, near the largest input that they allow."""
    quote, plan = build.quote, build.plan
    assert quote is not None
    heights, tracks = [f"{200 + i / 10} mm" for i in range(3000)], [f"{1900 + i} mm" for i in range(99)]
    # Each has a cut list of its own, so that none is taken from the last.
    times = [f"{3 + i / 100} min" for i in range(200)]
    places, members = tangle(1000)
    frame = rb.Frame(places, members, area_mm2=1e3, second_moment_mm4=1e6, modulus_mpa=2e5, pinned=[0, 1, 2])
    places, members = tangle(200)
    beams = {"area_mm2": 1e3, "second_moment_y_mm4": 1e6, "second_moment_z_mm4": 1e6, "torsion_mm4": 1e6,
             "shear_modulus_mpa": 8e4, "modulus_mpa": 2e5, "fixed": [0, 1]}  # fmt: skip
    space = rb.SpaceFrame([[*place, 0] for place in places], members, **beams)
    # All that Python does itself comes before: it is the core that is to be interrupted.
    plans = {time: plan.replace({"cutting": {"shear": {"cut_time": time}}}) for time in times}
    laps = LAPS | {"pitch_mm": np.full(30_000_000, 50.0)}
    pairs = [(str(i), str((i + 1) % 20_000)) for i in range(20_000)]
    years = np.linspace(1, 20, 10_000_000)
    return {
        "buckling": lambda: space.critical_load_factor([rb.SpaceLoad(199, x_n=-10)]),
        "compare": lambda: rb.compare(plans),
        "frame": lambda: frame.solve([rb.FrameLoad.node(7, x_n=10)], second_order=True),
        "laps": lambda: rb.check_laps(**laps),
        "loop of laps": lambda: rb.hanging_order(pairs),
        "losses": lambda: rb.losses_over_years(years, category="C3"),
        "odds": lambda: quote.odds(draws=20_000_000),
        "quotes": lambda: plan.quote_jobs({"cutting.shear.cut_time": times}, whole=True, progress=False),
        "sweep": lambda: plan.sweep({"raise.height": heights, "vehicle.track": tracks}),
    }


@pytest.mark.skipif(os.name == "nt", reason="interrupts by SIGINT")
@pytest.mark.parametrize(
    "name", ["buckling", "compare", "frame", "laps", "loop of laps", "losses", "odds", "quotes", "sweep"]
)
def test_a_long_call_can_be_interrupted(name: str, build: rb.Evaluation) -> None:
    # About a second on a quiet machine; a busy one may take several times as long.
    assert interrupted(long_calls(build)[name]) < 10
    assert build.plan.evaluate() == build
