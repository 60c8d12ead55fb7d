"""Nonsense in place of one argument at a time, of everything public: refused by name, or taken in its stride.

Nothing may get past the package's own errors and `TypeError`, and no number that comes back may be NaN or infinite.
"""

import inspect
import math
import warnings
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import nonsense
import numpy as np
import pytest

import raisedbody as rb

MEGABYTE = "x" * 1_000_000
LONGEST_MESSAGE = 20_000
"""Far more than any message needs, and far less than the text that it is about."""


def deep() -> Any:
    value: Any = 1
    for _ in range(1000):
        value = [value]
    return value


VALUES: dict[str, Any] = {
    "None": None, "True": True, "NaN": math.nan, "inf": math.inf, "-inf": -math.inf, "0": 0, "-1": -1, "1.5": 1.5,
    "1e308": 1e308, "-1e308": -1e308, "10**30": 10**30, "-10**30": -(10**30), "2**63": 2**63, "10**400": 10**400,
    "10**5000": 10**5000, "1j": 1j, "[1j]": [1j], "[np 1j]": [np.complex128(1j)],
    "empty": "", "space": " ", "megabyte": MEGABYTE, "lone surrogate": "a\ud800b",
    "NUL": "a\0b", "nan mm": "nan mm", "inf mm": "inf mm", "1e400 m": "1e400 m", "1e308 m": "1e308 m",
    "-1 mm": "-1 mm", "0 mm": "0 mm", "1 furlong": "1 furlong", "1e308 N": "1e308 N", "bytes": b"5 mm", "[]": [],
    "[[]]": [[]], "[None]": [None], "[NaN]": [math.nan], "[10**30]": [10**30], "[megabyte]": [MEGABYTE],
    "[surrogate]": ["\ud800"], "deep": deep(), "{}": {}, "{1: 2}": {1: 2}, "{a: []}": {"a": []},
    "{surrogate: 1}": {"\ud800": [1]}, "{megabyte: 1}": {MEGABYTE: [1]}, "()": (), "(1, 2)": (1, 2),
    "((1, 2), 3)": ((1, 2), 3), "object": object(), "a class": int, "array, 0-d": np.array(3.0),
    "array, empty": np.array([]), "array, objects": np.array([1, None], dtype=object),
    "array, texts": np.array(["a", "b"]), "array, strides": np.arange(12.0)[::3], "array, NaN": np.array([math.nan]),
    "array, complex": np.array([1j]), "array, dates": np.array(["2020-01-01"], dtype="datetime64[D]"),
    "array, bytes": np.zeros(3, dtype=np.int8), "array, 3-d": np.zeros((2, 2, 2)),
    "a date": np.datetime64("2020-01-01"),
}  # fmt: skip


CALLED = {("progress", "a class")}
"""A callable of the caller's own: what it raises is the caller's."""


@pytest.fixture(scope="module")
def calls(tmp_path_factory: pytest.TempPathFactory) -> dict[str, nonsense.Call]:
    plan = rb.Plan.read(Path(__file__).parents[2] / "examples/mobile_library.toml")
    return nonsense.calls(plan)


@pytest.fixture(autouse=True)
def _in_a_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, plan: rb.Plan) -> None:
    """Nonsense may be the name of a file."""
    monkeypatch.chdir(tmp_path)
    plan.write("plan.toml")
    plan.measure_up("after lift").write("readings.csv")


def public() -> Iterator[str]:
    """The name of everything public that takes an argument."""
    for name in rb.__all__:
        own = getattr(rb, name)
        if inspect.isclass(own) and not issubclass(own, Exception):
            if own.__text_signature__ not in (None, "()"):
                yield name
            for method, of in vars(own).items():
                bare = of.__func__ if isinstance(of, staticmethod) else of
                if method.startswith("_") or isinstance(of, property) or not callable(bare):
                    continue
                parameters = [p for p in inspect.signature(bare).parameters if p != "self"]
                if parameters:
                    yield f"{name}.{method}"
        elif inspect.ismodule(own) or (callable(own) and not inspect.isclass(own)):
            yield name


def test_everything_public_has_a_valid_call(calls: dict[str, nonsense.Call]) -> None:
    expected = {name for name in public() if name.split(".")[0] not in nonsense.NOT_CALLED} - set(nonsense.NOT_CALLED)
    assert set(calls) == expected


def test_valid_calls_are_taken(calls: dict[str, nonsense.Call]) -> None:
    for name, (of, args, kwargs) in calls.items():
        assert not infinite(of(*args, **kwargs)), name


def variants(own: nonsense.Call) -> Iterator[tuple[str, Callable[[Any], tuple[tuple[Any, ...], dict[str, Any]]]]]:
    """Each parameter by name, and the arguments with a value in its place."""
    parameters = list(inspect.signature(own.of).parameters.values())
    for i, parameter in enumerate(parameters):
        name = parameter.name
        if i < len(own.args):
            yield name, lambda value, i=i: ((*own.args[:i], value, *own.args[i + 1 :]), own.kwargs)
        elif parameter.kind not in (parameter.VAR_POSITIONAL, parameter.VAR_KEYWORD, parameter.POSITIONAL_ONLY):
            yield name, lambda value, name=name: (own.args, own.kwargs | {name: value})


def infinite(result: Any) -> list[str]:
    """Numbers of a result that are NaN or infinite; in tables NaN stands for what is not known."""
    if isinstance(result, float):
        return [] if math.isfinite(result) else ["the result"]
    if isinstance(result, rb.Table | rb.LapChecks | str | tuple | None | int | dict):
        return []
    found = []
    for name, of in vars(type(result)).items():
        if not name.startswith("_") and inspect.isgetsetdescriptor(of):
            value = getattr(result, name)
            for number in value if isinstance(value, tuple) else (value,):
                if isinstance(number, float) and not math.isfinite(number):
                    found.append(name)
    return found


def judged(error: BaseException, argument: str) -> str | None:
    """What is wrong with an error, if anything."""
    told = "\n".join([str(error), *getattr(error, "__notes__", [])])
    if len(told) > LONGEST_MESSAGE:
        return f"{len(told)} letters"
    if isinstance(error, rb.InternalError):
        return told
    if isinstance(error, rb.InputError):
        return None if error.field is not None or isinstance(error, rb.PlanSyntaxError) else f"no field: {told}"
    if isinstance(error, rb.PlanFileError):
        return None
    if isinstance(error, TypeError | UnicodeEncodeError):
        # A text that is no Unicode is refused by Python itself; a note names the argument.
        return None if argument in told else f"{type(error).__name__} without the argument's name: {told}"
    return f"{type(error).__name__}: {told}"


@pytest.mark.parametrize("name", sorted(set(public()) - set(nonsense.NOT_CALLED)))
def test_nonsense_is_refused_by_name(name: str, calls: dict[str, nonsense.Call]) -> None:
    faults = []
    own = calls[name]
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        for argument, put in variants(own):
            for kind, value in VALUES.items():
                if (argument, kind) in CALLED:
                    continue
                args, kwargs = put(value)
                try:
                    result = own.of(*args, **kwargs)
                except BaseException as error:
                    fault = judged(error, argument)
                else:
                    fault = "; ".join(infinite(result))
                if fault:
                    faults.append(f"{argument}={kind}: {fault[:300]}")
    assert not faults, "\n".join(faults)
