"""What a quantity object is, for type checkers: anything that converts itself to a unit, such as those of ``pint``."""

from __future__ import annotations

from typing import Any, Protocol

__all__ = ["Quantity"]


class Quantity(Protocol):
    """A number with a unit."""

    @property
    def magnitude(self) -> Any:  # noqa: ANN401 - a float, an int or a NumPy scalar
        """The number, in the unit that the object is in."""

    def to(self, unit: Any, /) -> Quantity:  # noqa: ANN401 - libraries also take objects of their own here
        """The same quantity in another unit."""
