"""Plans, results and parts are values: they pickle, copy, compare and convert."""

import copy
import json
import pickle

import pytest

import raisedbody as rb


@pytest.fixture(
    params=["plan", "evaluation", "comparison", "mass", "lap", "sheet", "rivet", "report", "check", "table"]
)
def value(request: pytest.FixtureRequest, plan: rb.Plan, build: rb.Evaluation, lap: rb.Lap) -> object:
    """One of each class."""
    return {
        "plan": plan,
        "evaluation": build,
        "comparison": rb.compare({"a": plan}),
        "mass": build.mass,
        "lap": lap,
        "sheet": lap.outer,
        "rivet": lap.rivet,
        "report": lap.check(shear="900 N", tension="150 N"),
        "check": lap.check(shear="900 N").governing,
        "table": build.checks,
    }[request.param]


@pytest.mark.parametrize("protocol", [2, pickle.HIGHEST_PROTOCOL])
def test_pickle_and_copies_are_equal(value: object, protocol: int) -> None:
    for other in (pickle.loads(pickle.dumps(value, protocol)), copy.copy(value), copy.deepcopy(value)):
        assert type(other) is type(value)
        assert other == value
        assert (other != value) is False


def test_values_of_other_classes_differ(value: object) -> None:
    assert value != object()
    assert value != "text"


def test_values_cannot_be_changed(value: object) -> None:
    if isinstance(value, rb.Table):
        pytest.skip("a table is the user's own copy")
    with pytest.raises(AttributeError):
        value.verdict = "passes"  # type: ignore[attr-defined]


def test_values_convert_to_plain_ones(value: object) -> None:
    if isinstance(value, rb.Table):
        plain: object = list(value.rows())
    else:
        plain = value.to_dict()  # type: ignore[attr-defined]
    assert json.loads(json.dumps(plain))


def test_values_have_a_helpful_repr(value: object) -> None:
    assert type(value).__name__ in repr(value) or isinstance(value, rb.Comparison)
    assert " object at 0x" not in repr(value)
