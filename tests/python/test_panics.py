"""A fault of the core is an error like others: caught, pickled and reported, and nothing stays broken after it."""

import concurrent.futures
import multiprocessing
import pickle
import re
import subprocess
import sys
import threading
from collections.abc import Callable

import pytest

import raisedbody as rb
from raisedbody import _core
from raisedbody.exceptions import InternalError


def fault(said: str = "boom", *, in_worker: bool = False) -> InternalError:
    with pytest.raises(InternalError) as caught:
        _core._panic(said, in_worker=in_worker)
    return caught.value


@pytest.mark.parametrize("in_worker", [False, True], ids=["this thread", "pool"])
def test_a_panic_is_an_error_of_the_package(in_worker: bool) -> None:
    error = fault("index 3 of 2", in_worker=in_worker)
    assert isinstance(error, rb.RaisedbodyError)
    assert isinstance(error, Exception)
    assert not isinstance(error, ValueError | OSError)
    assert f"{type(error).__module__}.{type(error).__qualname__}" == "raisedbody.exceptions.InternalError"
    assert error.said == "index 3 of 2"
    assert error.place is not None
    assert re.fullmatch(r"src/python/panics\.rs:\d+", error.place)
    assert error.version == rb.__version__


def test_the_message_says_what_where_whose_and_how_to_report() -> None:
    error = fault("index 3 of 2")
    text = str(error)
    for part in (
        "index 3 of 2",
        f"raisedbody {rb.__version__}",
        str(error.place),
        "fault of raisedbody, not of your input",
        "The call gave nothing",
        "further calls work",
        "To report it, keep the input",
    ):
        assert part in text


def test_it_pickles_with_its_place_and_notes() -> None:
    error = fault()
    error.add_note("while planning the left side")
    twin = pickle.loads(pickle.dumps(error))
    assert isinstance(twin, InternalError)
    assert (str(twin), twin.place, twin.__notes__) == (str(error), error.place, error.__notes__)


def _fault_elsewhere(said: str) -> None:
    _core._panic(said)


def test_it_comes_out_of_a_pool_of_processes() -> None:
    with concurrent.futures.ProcessPoolExecutor(1, mp_context=multiprocessing.get_context("spawn")) as pool:
        error = pool.submit(_fault_elsewhere, "elsewhere").exception(timeout=120)
        assert isinstance(error, InternalError)
        assert error.said == "elsewhere"
        assert error.place is not None
        # The process lives on.
        assert pool.submit(rb.inches, 25.4).result(timeout=120) == "1 in"


def test_many_threads_at_once_each_have_their_own() -> None:
    errors: list[tuple[str, InternalError]] = []

    def work(i: int) -> None:
        for j in range(20):
            errors.append((f"{i} {j}", fault(f"{i} {j}", in_worker=j % 2 == 0)))

    threads = [threading.Thread(target=work, args=(i,)) for i in range(8)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert len(errors) == 160
    assert all(error.said == said and error.place for said, error in errors)


def through_a_callable(plan: rb.Plan, call: Callable[[int, int], object]) -> InternalError:
    with pytest.raises(InternalError) as caught:
        plan.sweep({"skin.gauge": [16, 18]}, progress=call)
    return caught.value


def test_through_a_callable_of_the_caller_it_is_told_once(plan: rb.Plan, capfd: pytest.CaptureFixture[str]) -> None:
    error = through_a_callable(plan, lambda done, of: _core._panic("inside"))
    assert str(error).count("This is a fault of raisedbody") == 1
    assert "inside" in str(error)
    again = through_a_callable(plan, lambda done, of: (_ for _ in ()).throw(type(fault())("raised anew")))
    assert "raised anew" in str(again)
    capfd.readouterr()


def test_everything_works_after_it(plan: rb.Plan) -> None:
    before = plan.evaluate()
    for in_worker in (False, True):
        fault(in_worker=in_worker)
    assert plan.evaluate() == before
    assert before.packet().html
    with pytest.raises(InternalError):
        plan.sweep({"skin.gauge": [16, 18, 20]}, progress=lambda done, of: _core._panic("in the middle"))
    assert len(plan.sweep({"skin.gauge": [16, 18, 20]}, progress=False)) == 3
    assert rb.Plan.from_text(plan.to_text()).evaluate() == before


def test_made_by_hand_it_knows_no_place() -> None:
    error = InternalError("never said by the core")
    assert error.place is None
    assert str(error).startswith(f"raisedbody {rb.__version__} gave up: never said by the core\n")


def test_the_interpreter_ends_in_order_after_it() -> None:
    code = "from raisedbody import _core\n_core._panic('at the end')"
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, timeout=120, check=False)
    assert run.returncode == 1
    assert "raisedbody.exceptions.InternalError: raisedbody" in run.stderr
