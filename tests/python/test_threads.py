"""The same objects in many threads and processes: the same answers, and nothing that waits for ever."""

import concurrent.futures
import contextlib
import multiprocessing
import os
import signal
import subprocess
import sys
import textwrap
import threading
import time
from collections.abc import Callable

import numpy as np
import pytest

import raisedbody as rb

THREADS = 8
LAPS = {
    "outer_mm": 1.2, "outer_fu_mpa": 360, "diameter_mm": 4.8, "hole_mm": 4.9, "head_mm": 10.1, "rivet_shear_n": 6000,
    "rivet_tension_n": 4400, "edge_mm": 12, "shear_n": 900,
}  # fmt: skip


def refused(plan: rb.Plan) -> str:
    with pytest.raises(rb.InputError) as caught:
        plan.replace(skin={"gauge": 99})
    return str(caught.value)


def work(plan: rb.Plan, build: rb.Evaluation) -> dict[str, Callable[[], object]]:
    """What a service may do at once, each with a result that can be compared."""
    quote = build.quote
    assert quote is not None
    return {
        "evaluate": lambda: str(list(plan.evaluate().checks.rows())),
        "packet": lambda: build.packet().html,
        "drawings": lambda: [build.drawing(name).svg for name in build.drawings],
        "laps": lambda: rb.check_laps(**LAPS, pitch_mm=np.linspace(20, 90, 200_000)).utilisation.tobytes(),
        "sweep": lambda: plan.sweep({"skin.gauge": [16, 18, 20]}, progress=False).to_dict(),
        "quotes": lambda: str(plan.quote_jobs({"skin.gauge": [16, 18] * 20}, progress=False)["price"].tolist()),
        "odds": lambda: quote.odds(draws=2000, progress=False).price(0.8),
        "replace": lambda: plan.replace(skin={"gauge": 16}).evaluate().mass.after_kg,
        "text": lambda: rb.Plan.from_text(plan.to_text()).to_text(),
        "refused": lambda: refused(plan),
        "cuts": lambda: str(plan.cuts()),
    }


def test_eight_threads_have_the_answers_of_one(plan: rb.Plan, build: rb.Evaluation) -> None:
    jobs = work(plan, build)
    alone = {name: job() for name, job in jobs.items()}
    # Each thread starts at another job, so that unlike jobs run at once.
    names = list(jobs)
    order = [names[(i + shift) % len(names)] for shift in range(THREADS) for i in range(len(names))]
    with concurrent.futures.ThreadPoolExecutor(THREADS) as pool:
        running = [(name, pool.submit(jobs[name])) for name in order]
        for name, future in running:
            assert future.result(timeout=300) == alone[name], name


def test_other_threads_run_while_the_core_works() -> None:
    pitches = np.full(10_000_000, 50.0)
    begins = threading.Event()

    def check() -> rb.LapChecks:
        begins.set()
        return rb.check_laps(**LAPS, pitch_mm=pitches)

    ticks = 0
    # Python would let this thread run now and then, whatever the core does, if it were not told to wait a minute.
    before = sys.getswitchinterval()
    sys.setswitchinterval(60)
    try:
        with concurrent.futures.ThreadPoolExecutor(1) as pool:
            laps = pool.submit(check)
            begins.wait()
            while not laps.done():
                ticks += 1
                time.sleep(0.001)
    finally:
        sys.setswitchinterval(before)
    assert ticks > 3
    assert laps.result().verdict.shape == pitches.shape


def _evaluated(plan: rb.Plan) -> tuple[rb.Evaluation, int]:
    return plan.evaluate(), len(plan.sweep({"skin.gauge": [16, 18]}, progress=False))


@pytest.mark.parametrize("method", [m for m in ("spawn", "forkserver") if m in multiprocessing.get_all_start_methods()])
def test_plans_and_evaluations_go_to_other_processes_and_back(method: str, plan: rb.Plan) -> None:
    expected = _evaluated(plan)
    context = multiprocessing.get_context(method)
    with concurrent.futures.ProcessPoolExecutor(2, mp_context=context) as pool:
        results = list(pool.map(_evaluated, [plan] * 4, timeout=300))
    assert results == [expected] * 4


FORKED = """
    import concurrent.futures, multiprocessing, os, pickle, sys
    import numpy as np
    import raisedbody as rb

    plan = rb.Plan.read("examples/mobile_library.toml")
    laps = dict(outer_mm=1.2, outer_fu_mpa=360, diameter_mm=4.8, hole_mm=4.9, head_mm=10.1, rivet_shear_n=6000,
                rivet_tension_n=4400, edge_mm=12, shear_n=900, pitch_mm=np.full(200_000, 50.0))
    def work():
        return rb.check_laps(**laps).utilisation.sum(), len(plan.sweep({"skin.gauge": [16, 18, 20]}, progress=False))
    def tables(build):
        mass = pickle.loads(pickle.dumps(build.mass))
        return build.to_dict(), str(build), build._repr_html_(), build.csv("flatness"), mass
    def in_another_thread(build):
        with concurrent.futures.ThreadPoolExecutor(1) as pool:
            return pool.submit(lambda: (work(), tables(build))).result()
    def mass(plan):
        return plan.evaluate().mass
    before = work()  # the pool of threads is there now
    build, second, third = (plan.replace(name=f"Bus {i}").evaluate() for i in range(3))
    child = os.fork()
    if child == 0:
        # Its tables have not been worked out yet.
        same = (tables(build), work()) == (tables(plan.replace(name="Bus 0").evaluate()), before)
        same = same and in_another_thread(second) == (before, tables(plan.replace(name="Bus 1").evaluate()))
        grandchild = os.fork()
        if grandchild == 0:
            os._exit(0 if work() == before and len(tables(third)) == 5 else 4)
        _, status = os.waitpid(grandchild, 0)
        os._exit(os.waitstatus_to_exitcode(status) if same else 3)
    _, status = os.waitpid(child, 0)
    assert work() == before
    with concurrent.futures.ProcessPoolExecutor(2, mp_context=multiprocessing.get_context("fork")) as pool:
        assert list(pool.map(mass, [plan] * 4)) == [mass(plan)] * 4
    sys.exit(os.waitstatus_to_exitcode(status))
"""


@pytest.mark.skipif(not hasattr(os, "fork"), reason="there is no fork here")
def test_a_forked_child_works_too() -> None:
    command = [sys.executable, "-c", textwrap.dedent(FORKED)]
    # In a session of its own: a child that hangs is ended with it.
    with subprocess.Popen(
        command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, start_new_session=True
    ) as run:
        try:
            told, _ = run.communicate(timeout=300)
        finally:
            with contextlib.suppress(ProcessLookupError):
                os.killpg(run.pid, signal.SIGKILL)
    assert run.returncode == 0, told
