import copy
import doctest
import errno
import pickle

import pytest

from raisedbody import exceptions
from raisedbody.exceptions import (
    InputError,
    InternalError,
    PlanFileError,
    PlanFileNotFoundError,
    PlanFilePermissionError,
    PlanSyntaxError,
    Problem,
    QuantityError,
    RaisedbodyError,
)

PROBLEMS = [
    ("skin.gauge", "81", "81 is out of range; allowed: 14 to 22", 12, 9),
    ("skin.rivet", None, "missing; write for instance 6.4 mm", None, None),
]


def every_kind():
    return [
        RaisedbodyError("something"),
        InputError("2 problems", PROBLEMS),
        InternalError("index 3 of 2", "src/plan/order.rs:12"),
        QuantityError("pitch: no unit", PROBLEMS[:1]),
        PlanSyntaxError("not valid TOML", 3, 7),
        PlanFileError("cannot read bus.toml: disk failed", errno.EIO, "bus.toml"),
        PlanFileError("cannot read bus.toml: no such file", errno.ENOENT, "bus.toml"),
        PlanFileError("cannot write bus.toml", None, "bus.toml"),
    ]


@pytest.mark.parametrize("error", every_kind(), ids=lambda error: type(error).__name__)
@pytest.mark.parametrize("clone", [lambda error: pickle.loads(pickle.dumps(error)), copy.copy, copy.deepcopy])
def test_errors_survive_pickling_and_copying(error, clone):
    error.add_note("while planning the left side")
    twin = clone(error)
    assert type(twin) is type(error)
    assert str(twin) == str(error)
    assert vars(twin) == vars(error)
    for name in ("field", "value", "problems", "errno", "filename", "strerror"):
        assert getattr(twin, name, None) == getattr(error, name, None)


@pytest.mark.parametrize("error", every_kind(), ids=lambda error: type(error).__name__)
def test_every_error_has_the_common_base(error):
    assert isinstance(error, RaisedbodyError)


def test_input_error_lists_every_problem_and_points_at_the_first():
    error = InputError("2 problems", PROBLEMS)
    assert error.problems == (Problem(*PROBLEMS[0]), Problem(*PROBLEMS[1]))
    assert (error.field, error.value) == ("skin.gauge", "81")
    assert (error.problems[0].line, error.problems[0].column) == (12, 9)
    assert str(error) == "2 problems"


def test_input_error_without_a_problem_has_no_field():
    error = InputError("no plan given")
    assert (error.problems, error.field, error.value) == ((), None, None)


def test_the_core_names_an_argument_by_a_note():
    error = InputError("-1 is out of range", [(None, "-1", "-1 is out of range", None, None)])
    error.add_note("while processing '[2]'")
    error.add_note("while processing 'pinned'")
    assert (error.field, str(error)) == ("pinned[2]", "pinned[2]: -1 is out of range")
    assert not hasattr(error, "__notes__")
    error.add_note("while processing 'pinned'")
    assert error.__notes__ == ["while processing 'pinned'"]


def test_problems_cannot_be_changed():
    problem = Problem(*PROBLEMS[0])
    with pytest.raises(AttributeError, match="cannot be changed: message"):
        problem.message = "all is well"
    with pytest.raises(AttributeError, match="cannot be changed: message"):
        del problem.message


def test_problems_compare_by_value():
    assert Problem(*PROBLEMS[0]) == Problem(*PROBLEMS[0])
    assert len({Problem(*PROBLEMS[0]), Problem(*PROBLEMS[0]), Problem(*PROBLEMS[1])}) == 2
    assert Problem(*PROBLEMS[0]) != PROBLEMS[0]


def test_problem_prints_as_the_call_that_makes_it():
    problem = Problem(*PROBLEMS[1])
    assert eval(repr(problem)) == problem
    assert problem.to_dict() == {
        "field": "skin.rivet",
        "value": None,
        "message": "missing; write for instance 6.4 mm",
        "line": None,
        "column": None,
    }


@pytest.mark.parametrize("kind", [InputError, QuantityError, PlanSyntaxError])
def test_bad_input_is_a_value_error(kind):
    assert issubclass(kind, ValueError)


def test_syntax_error_has_its_place():
    error = PlanSyntaxError("not valid TOML", 3, 7)
    assert (error.line, error.column) == (3, 7)
    assert error.problems == (Problem(None, None, "not valid TOML", 3, 7),)


@pytest.mark.parametrize(
    ("number", "kind", "built_in"),
    [
        (errno.ENOENT, PlanFileNotFoundError, FileNotFoundError),
        (errno.EACCES, PlanFilePermissionError, PermissionError),
        (errno.EPERM, PlanFilePermissionError, PermissionError),
        (errno.EIO, PlanFileError, OSError),
        (None, PlanFileError, OSError),
    ],
)
def test_file_errors_take_the_class_of_their_number(number, kind, built_in):
    error = PlanFileError("cannot read bus.toml", number, "bus.toml")
    assert type(error) is kind
    assert isinstance(error, built_in)
    assert (str(error), error.errno, error.filename) == ("cannot read bus.toml", number, "bus.toml")


def test_examples_in_the_docstrings_run():
    result = doctest.testmod(exceptions)
    assert result.attempted > 0
    assert result.failed == 0
