"""What quantity objects and dataframes are, for type checkers: such as those of ``pint`` and ``pandas``."""

from __future__ import annotations

from typing import Any, Protocol

__all__ = ["DataFrame", "Quantity"]


class Quantity(Protocol):
    """A number with a unit."""

    @property
    def magnitude(self) -> Any:  # noqa: ANN401 - a float, an int or a NumPy scalar
        """The number, in the unit that the object is in."""

    def to(self, unit: Any, /) -> Quantity:  # noqa: ANN401 - libraries also take objects of their own here
        """The same quantity in another unit."""


class DataFrame(Protocol):
    """A table with named columns."""

    @property
    def columns(self) -> Any:  # noqa: ANN401 - a list or an index
        """The names of the columns."""

    def __getitem__(self, name: Any, /) -> Any:  # noqa: ANN401 - libraries also take lists of names here
        """A column, value by value."""
