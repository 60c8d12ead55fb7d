"""What this package raises.

Everything is a `RaisedbodyError`. A bad input is an `InputError` and so a `ValueError` too; a file that cannot be read
or written is a `PlanFileError` and so an `OSError` too. An `InternalError` is a fault of the package itself.
"""

from __future__ import annotations

import errno as _errno

TYPE_CHECKING = False  # `typing` and `dataclasses` would take most of the time that importing this package takes
if TYPE_CHECKING:
    from collections.abc import Iterable
    from typing import Any, NoReturn, Self

__all__ = [
    "InputError",
    "InternalError",
    "LapLoopError",
    "PlanFileError",
    "PlanFileExistsError",
    "PlanFileNotFoundError",
    "PlanFilePermissionError",
    "PlanSyntaxError",
    "Problem",
    "QuantityError",
    "RaisedbodyError",
]


class Problem:
    """One thing wrong with an input. Cannot be changed.

    Attributes:
        field: Path of the entry, such as ``skin.gauge`` or ``fit_out[2].mass``; None where the whole text is at fault.
        value: The value as it was written; None where there is none.
        message: What is wrong, and what to write instead.
        line: Line in the file, from 1; None where the input did not come from a text.
        column: Column in the line, from 1; None where the input did not come from a text.
    """

    __slots__ = __match_args__ = ("field", "value", "message", "line", "column")

    field: str | None
    value: str | None
    message: str
    line: int | None
    column: int | None

    def __init__(
        self, field: str | None, value: str | None, message: str, line: int | None = None, column: int | None = None
    ) -> None:
        """Keep the values."""
        for name, content in zip(self.__slots__, (field, value, message, line, column), strict=True):
            object.__setattr__(self, name, content)

    def __setattr__(self, name: str, content: object) -> NoReturn:
        """Refuse the change."""
        raise AttributeError(f"a Problem cannot be changed: {name}")

    def __delattr__(self, name: str) -> NoReturn:
        """Refuse the change."""
        raise AttributeError(f"a Problem cannot be changed: {name}")

    def to_dict(self) -> dict[str, str | int | None]:
        """The values by name."""
        return {name: getattr(self, name) for name in self.__slots__}

    def __repr__(self) -> str:
        """The call that makes it."""
        return f"Problem({', '.join(f'{name}={content!r}' for name, content in self.to_dict().items())})"

    def __eq__(self, other: object) -> bool:
        """Whether every value is the same."""
        return self.to_dict() == other.to_dict() if isinstance(other, Problem) else NotImplemented

    def __hash__(self) -> int:
        """Same for equal problems."""
        return hash(tuple(self.to_dict().values()))

    def __reduce__(self) -> tuple[Any, ...]:
        """Pickle by value."""
        return Problem, tuple(self.to_dict().values())


class RaisedbodyError(Exception):
    """Base of all errors of this package."""

    # Python lets a class change its base only among classes without slots of their own; see `InternalError`.
    __slots__ = ()


class InternalError(RaisedbodyError):
    """A fault of this package, not of what it was given.

    The call that raised it gave nothing. What earlier calls returned still holds, and further calls work. Whatever is
    wrong with an input has an error of its own that names it; this one is to be reported.

    Args:
        said: What the core gave up with.
        place: File and line of the core; where it is left out, that of the last fault that said the same, if any.

    Attributes:
        said: What the core gave up with.
        place: File and line of the core; None where it is not known.
        version: The version of this package.

    Example:
        >>> fault = InternalError("index out of bounds", "src/plan/order.rs:12")
        >>> "gave up at src/plan/order.rs:12: index out of bounds" in str(fault)
        True
    """

    # The class that the core raises takes this one as its base when it is loaded (src/python/panics.rs).
    __slots__ = ()

    said: str
    place: str | None
    version: str

    def __init__(self, said: str, place: str | None = None) -> None:
        """Keep what is known of the fault."""
        from raisedbody import _core

        place = _core._panic_place(said) if place is None else place
        super().__init__(said, place)
        self.said = said
        self.place = place
        self.version = _core.__version__

    def __str__(self) -> str:
        """What happened, whose fault it is, what still holds and how to report it."""
        if self.said.endswith(_REPORT):
            return self.said  # it went through a function of the caller's and back into the core
        at = "" if self.place is None else f" at {self.place}"
        return f"raisedbody {self.version} gave up{at}: {self.said}\n{_REPORT}"

    def __reduce__(self) -> tuple[Any, ...]:
        """Pickle with the place, which the reader's process does not know."""
        return InternalError, (self.said, self.place), self.__dict__


_REPORT = (
    "This is a fault of raisedbody, not of your input. The call gave nothing; what earlier calls returned still holds, "
    "and further calls work. To report it, keep the input (the plan file, or the call and its arguments) and send it "
    "with this whole message to the maintainers."
)


class InputError(RaisedbodyError, ValueError):
    """An input that can be read but not used. All its independent problems are listed at once.

    Args:
        message: What is wrong, for a person to read.
        problems: The single problems, each a `Problem` or its values in that order.

    Attributes:
        problems: Every problem found.

    Example:
        >>> error = InputError("skin.gauge: missing", [("skin.gauge", None, "missing; write for instance 18", 12, 1)])
        >>> error.field, error.problems[0].line
        ('skin.gauge', 12)
    """

    problems: tuple[Problem, ...]

    def __init__(
        self,
        message: str,
        problems: Iterable[Problem | tuple[str | None, str | None, str, int | None, int | None]] = (),
    ) -> None:
        """Keep the message and the problems."""
        super().__init__(message)
        self.problems = tuple(row if isinstance(row, Problem) else Problem(*row) for row in problems)

    def add_note(self, note: str, /) -> None:
        """Keep a note. The core passes on the name of an argument by one, which becomes part of the first field."""
        field = self.problems[0].field if len(self.problems) == 1 else ""
        if note.startswith(_ARGUMENT) and (field is None or field.startswith("[")):
            own = self.problems[0]
            field = note[len(_ARGUMENT) :].removesuffix("'") + (field or "")
            self.problems = (Problem(field, own.value, own.message, own.line, own.column),)
            self.args = (f"{field}: {own.message}",)
        else:
            super().add_note(note)

    @property
    def field(self) -> str | None:
        """Path of the entry that the first problem is about."""
        return self.problems[0].field if self.problems else None

    @property
    def value(self) -> str | None:
        """The value, as written, that the first problem is about."""
        return self.problems[0].value if self.problems else None

    def __reduce__(self) -> tuple[Any, ...]:
        """Pickle with the problems."""
        return type(self), (str(self), self.problems), self.__dict__


_ARGUMENT = "while processing '"
"""How pyo3 begins the note that names an argument."""


class QuantityError(InputError):
    """A quantity that cannot be read: no number, no unit, or a unit of another kind.

    Example:
        >>> raise QuantityError("pitch: 4.25 has no unit", [Problem("pitch", "4.25", 'no unit; write "4.25 in"')])
        Traceback (most recent call last):
        raisedbody.exceptions.QuantityError: pitch: 4.25 has no unit
    """


def refused(field: str, value: str, message: str) -> InputError:
    """The error for one input, with its place in front of the message."""
    return InputError(f"{field}: {message}", [(field, value, message, None, None)])


class LapLoopError(InputError):
    """Laps that nothing can be hung by, because they go round in a loop.

    Args:
        message: What is wrong, for a person to read.
        loop: Names: each laps over the next, and the last over the first.
        problems: The single problems, as of `InputError`.

    Attributes:
        loop: Names: each laps over the next, and the last over the first; no loop is shorter.

    Example:
        >>> raise LapLoopError("laps: A laps over B, B over A", ["A", "B"])
        Traceback (most recent call last):
        raisedbody.exceptions.LapLoopError: laps: A laps over B, B over A
    """

    loop: tuple[str, ...]

    def __init__(
        self,
        message: str,
        loop: Iterable[str],
        problems: Iterable[Problem | tuple[str | None, str | None, str, int | None, int | None]] = (),
    ) -> None:
        """Keep the message, the loop and the problems."""
        super().__init__(message, problems)
        self.loop = tuple(loop)

    def __reduce__(self) -> tuple[Any, ...]:
        """Pickle with the loop and the problems."""
        return type(self), (str(self), self.loop, self.problems), self.__dict__


class PlanSyntaxError(InputError):
    """A text that is not TOML.

    Args:
        message: What is wrong, for a person to read.
        line: Where, from 1.
        column: Where in the line, from 1.

    Attributes:
        line: Where, from 1.
        column: Where in the line, from 1.
    """

    line: int
    column: int

    def __init__(self, message: str, line: int, column: int) -> None:
        """Keep the message and the place."""
        super().__init__(message, [Problem(None, None, message, line, column)])
        self.line = line
        self.column = column

    def __reduce__(self) -> tuple[Any, ...]:
        """Pickle with the place."""
        return type(self), (str(self), self.line, self.column), self.__dict__


class PlanFileError(RaisedbodyError, OSError):
    """A file that cannot be read or written.

    As with `OSError`, a missing file and a file without permission become the narrower class by themselves, so that
    ``except FileNotFoundError`` and ``except PermissionError`` work.

    Args:
        message: What failed, for a person to read.
        errno: The system's error number; None where the system gave none.
        filename: The file.

    Example:
        >>> raise PlanFileError("cannot read bus.toml: no such file", 2, "bus.toml")
        Traceback (most recent call last):
        raisedbody.exceptions.PlanFileNotFoundError: cannot read bus.toml: no such file
    """

    # `OSError` reads its arguments in `__new__`, which also is where it picks the narrower class.
    def __new__(cls, message: str, errno: int | None, filename: str) -> Self:
        """Pick the class that fits the error number."""
        kind: type[PlanFileError] = cls
        if cls is PlanFileError:
            kind = _BY_ERRNO.get(errno, cls)
        return super().__new__(kind, errno, message, filename)  # type: ignore[return-value]

    def __str__(self) -> str:
        """The message, which names the file already."""
        return str(self.strerror)

    def __reduce__(self) -> tuple[Any, ...]:
        """Pickle with the file and the error number."""
        return type(self), (self.strerror, self.errno, self.filename), self.__dict__


class PlanFileExistsError(PlanFileError, FileExistsError):
    """A file that is there already and was not to be overwritten."""


class PlanFileNotFoundError(PlanFileError, FileNotFoundError):
    """A file that is not there."""


class PlanFilePermissionError(PlanFileError, PermissionError):
    """A file that this user may not read or write."""


_BY_ERRNO: dict[int | None, type[PlanFileError]] = {
    _errno.EEXIST: PlanFileExistsError,
    _errno.ENOENT: PlanFileNotFoundError,
    _errno.EACCES: PlanFilePermissionError,
    _errno.EPERM: PlanFilePermissionError,
}
