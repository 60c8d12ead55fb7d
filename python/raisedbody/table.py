"""Tables: columns of NumPy arrays whose names end in their unit."""

from __future__ import annotations

TYPE_CHECKING = False  # `typing` and NumPy would take most of the time that importing this package takes
if TYPE_CHECKING:
    from collections.abc import Iterator
    from typing import Any

    from numpy.typing import NDArray

    _Columns = dict[str, NDArray[Any]]
else:
    _Columns = dict

__all__ = ["Table"]


class Table(_Columns):
    """A table as a dictionary of columns, each a NumPy array, all of one length.

    Any dataframe library takes it: ``pandas.DataFrame(table)``, ``polars.DataFrame(table)``. Its ``len`` is the number
    of columns, as for any dictionary; `height` is the number of rows. NaN stands for a number that is not known.

    Example:
        >>> import raisedbody as rb
        >>> table = rb.catalogue_table("corrosivity")
        >>> table.height
        18
        >>> next(table.rows())["category"]
        'C1'
    """

    @property
    def height(self) -> int:
        """Number of rows."""
        return len(next(iter(self.values()))) if self else 0

    def rows(self) -> Iterator[dict[str, Any]]:
        """Each row as a dictionary of plain Python values."""
        names = list(self)
        for values in zip(*(column.tolist() for column in self.values()), strict=True):
            yield dict(zip(names, values, strict=True))

    def __eq__(self, other: object) -> bool:
        """Whether names, order and every value are the same; NaN equals NaN."""
        if not isinstance(other, dict):
            return NotImplemented
        import numpy as np

        def same(a: NDArray[Any], b: object) -> bool:
            b = np.asarray(b)
            return bool(np.array_equal(a, b, equal_nan=a.dtype.kind == b.dtype.kind == "f"))

        return list(self) == list(other) and all(same(self[name], other[name]) for name in self)

    def __ne__(self, other: object) -> bool:
        """Whether anything differs: a dictionary's own answer would compare arrays as truth values."""
        same = self.__eq__(other)
        return same if same is NotImplemented else not same

    __hash__ = None

    def __repr__(self) -> str:
        """Names of the columns and the number of rows."""
        return f"<Table of {self.height} rows: {', '.join(self)}>"

    def __reduce__(self) -> tuple[Any, ...]:
        """Pickle by value."""
        return Table, (dict(self),)

    def _repr_html_(self) -> str:
        """The table for a notebook, every text escaped."""
        from html import escape

        def cell(value: object) -> str:
            if isinstance(value, float):
                return "–" if value != value else f"{value:,.5g}"
            return escape(str(value))

        head = "".join(f"<th>{escape(name)}</th>" for name in self)
        body = "".join(
            f"<tr>{''.join(f'<td>{cell(value)}</td>' for value in row.values())}</tr>" for row in self.rows()
        )
        return f"<table><tr>{head}</tr>{body}</table>"
