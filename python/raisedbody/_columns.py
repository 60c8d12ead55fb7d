"""What plots read from results: columns with their words and units, the rows of each series, limits, the currency."""

from __future__ import annotations

from raisedbody._core import parse
from raisedbody.exceptions import QuantityError, refused

TYPE_CHECKING = False  # `typing` and NumPy would take most of the time that importing this package takes
if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence
    from typing import Any

    from numpy import bool_, float64, intp
    from numpy.typing import NDArray

    from raisedbody._core import Sweep

__all__ = [
    "Bounds",
    "Column",
    "currency_of",
    "is_money",
    "kept",
    "label",
    "limits_of",
    "names_of",
    "numbers",
    "of_frame",
    "places",
    "plain",
    "series",
    "unit_of",
]

Bounds = tuple[float | None, float | None]
"""The least and the most that a number may be; None for no bound."""
Column = str | tuple[str, str]
"""The name of a number, or the names of the two ends of a range."""

_UNITS = {
    "a": "a",
    "count": "count",
    "deg": "°",
    "deg_g": "°/g",
    "degc": "°C",
    "g": "g",
    "h": "h",
    "hz": "Hz",
    "k": "K",
    "kg": "kg",
    "kg_m": "kg/m",
    "kg_m2": "kg/m²",
    "kg_m3": "kg/m³",
    "l": "L",
    "m": "m",
    "m2": "m²",
    "m2_l": "m²/L",
    "m3": "m³",
    "m_s": "m/s",
    "mm": "mm",
    "mm2": "mm²",
    "mm3": "mm³",
    "mm4": "mm⁴",
    "mpa": "MPa",
    "n": "N",
    "n_mm": "N/mm",
    "pa": "Pa",
    "ratio": "ratio",
    "um": "µm",
    "um_a": "µm/a",
    "v": "V",
    "years": "years",
}
_MONEY = {"price_total": "", "price_per_m2": "/m²", "cost_per_year_least": "/year", "cost_per_year_most": "/year"}
_RANGE_WORDS = {"low", "high", "least", "most", "shortest", "longest"}
_SIGNS = {"cg": "CG", "en": "EN", "aisi": "AISI"}


def _unit(name: str, currency: str) -> tuple[str, str]:
    """The words of a column's name and its unit, empty where it has none."""
    for ending, per in _MONEY.items():
        if name.endswith(ending):
            words = name.removesuffix("_total").removesuffix("_per_m2").replace("_per_year", "")
            return words, (currency or "currency not known") + per
    whole, _, part = name.rpartition("_per_")
    words, unit = _unit(whole, currency) if part in _UNITS else (name, "")
    if unit:
        return words, f"{unit}/{_UNITS[part]}"
    if name.endswith("moment_n_mm"):
        return name.removesuffix("_n_mm"), "N mm"
    parts = name.split("_")
    for length in (2, 1):
        known = _UNITS.get("_".join(parts[-length:])) if len(parts) > length else None
        if known is not None:
            return "_".join(parts[:-length]), known
    return name, ""


def label(column: Column, currency: str = "") -> str:
    """A column's words with its unit; of two ends of a range the words that they share."""
    if isinstance(column, str):
        words, unit = _unit(column, currency)
        if not unit:
            return column  # the path of an entry, or a column of the user's own
        kept = words.split("_")
    else:
        units = {_unit(name, currency)[1] for name in column}
        if len(units) > 1:
            message = f"{' and '.join(column)} are not of one unit; a range has its two ends in the same"
            raise refused("y", str(column), message)
        unit = units.pop()
        kept = [word for word in _unit(column[0], currency)[0].split("_") if word not in _RANGE_WORDS]
    said = " ".join(_SIGNS.get(word, word) for word in kept) or "value"
    return f"{said}, {unit}" if unit else said


def unit_of(name: str, currency: str = "") -> str:
    """The unit of a column."""
    return _unit(name, currency)[1]


def names_of(column: Column) -> tuple[str, ...]:
    """One name, or the two of a range."""
    return (column,) if isinstance(column, str) else column


def of_frame(table: Any) -> dict[str, Any]:  # noqa: ANN401 - a frame of any library that narwhals knows
    """A table, or the columns of a dataframe, with NaN for a number that is missing."""
    if isinstance(table, dict):
        return table
    import narwhals as nw
    import numpy as np

    found = {}
    for name, column in nw.from_native(table, eager_only=True).to_dict(as_series=True).items():
        missing = column.is_null().to_list()
        gap = np.nan if column.dtype.is_numeric() else ""
        found[name] = np.asarray([gap if no else value for no, value in zip(missing, column.to_list(), strict=True)])
    return found


def numbers(table: Mapping[str, Any], name: str, field: str) -> NDArray[float64]:
    """A column of numbers by its name."""
    import numpy as np

    if name not in table:
        message = f"there is no column {name}; there are {', '.join(table)}"
        raise refused(field, name, message)
    try:
        return np.asarray(table[name], dtype=float)
    except ValueError:
        message = f"{name} holds text, not numbers; name a column whose name ends in a unit"
        raise refused(field, name, message) from None


def is_money(name: str) -> bool:
    """Whether a column holds money."""
    return name.endswith(tuple(_MONEY))


def kept(table: Mapping[str, Any], axes: Sequence[str], where: Mapping[str, str]) -> NDArray[bool_]:
    """Which rows of a sweep have the values asked for."""
    import numpy as np

    rows = np.ones(len(table["row"]), dtype=bool)
    for path, value in where.items():
        if path not in axes:
            raise refused("where", path, f"no entry of the sweep; it varies {', '.join(axes)}")
        if str(value) not in table[path]:
            message = f"no row has {value}; there are {', '.join(dict.fromkeys(table[path].tolist()))}"
            raise refused(f"where.{path}", str(value), message)
        rows &= table[path] == str(value)
    return rows


def series(
    table: Mapping[str, Any], by: Sequence[str], places: NDArray[intp]
) -> Iterator[tuple[NDArray[Any], str, tuple[int, int]]]:
    """Each combination of values of some columns among the rows at these places: its places, name, colour and line."""
    ends = [path.rpartition(".")[2] for path in by]
    words = ends if len(set(ends)) == len(ends) else by
    keys = [tuple(str(table[path][place]) for path in by) for place in places.tolist()]
    first = list(dict.fromkeys(key[:1] for key in keys))
    rest = list(dict.fromkeys(key[1:] for key in keys))
    for own in dict.fromkeys(keys):
        name = ", ".join(f"{path} {value}" for path, value in zip(words, own, strict=True))
        colour = first.index(own[:1])
        line = rest.index(own[1:]) if len(by) > 1 else colour
        yield places[[key == own for key in keys]], name, (colour, line)


_KINDS = {
    "length": "mm",
    "mass": "kg",
    "areal mass": "kg/m²",
    "force": "N",
    "line load": "N/mm",
    "pressure": "MPa",
    "speed": "m/s",
    "temperature": "°C",
    "duration": "h",
    "angle": "°",
    "ratio": "ratio",
}


def plain(values: Sequence[str]) -> tuple[list[float], str] | None:
    """Values as numbers with their unit, where all are plain numbers or quantities of one kind; else nothing."""
    try:
        return [float(value) for value in values], ""
    except ValueError:
        pass
    for kind, unit in _KINDS.items():
        try:
            return [parse(value, kind) for value in values], unit
        except QuantityError:
            continue
    return None


def places(values: Sequence[str], at: Sequence[float] | None) -> dict[str, float]:
    """Where each value of an entry stands along an axis: as given, by its size, or one after another."""
    if at is not None:
        if len(at) != len(values):
            message = f"{len(at)} places for {len(values)} values; give one for each, in the order of the sweep"
            raise refused("at", str(list(at)), message)
        return dict(zip(values, (float(place) for place in at), strict=True))
    found = plain(values)
    return dict(zip(values, found[0] if found else map(float, range(len(values))), strict=True))


def limits_of(left_out: Mapping[str, Any]) -> dict[str, Bounds]:
    """The limits of a choice, as it names them where it counts what they rule out."""
    limits: dict[str, Bounds] = {}
    for words in left_out:
        match words.split():
            case ["not", name, "≥", least]:
                limits[name] = (float(least), None)
            case ["not", name, "≤", most]:
                limits[name] = (None, float(most))
            case ["not", name, "from", least, "to", most]:
                limits[name] = (float(least), float(most))
    return limits


def currency_of(sweep: Sweep) -> str:
    """The currency of the first combination that can be; empty where that has no prices."""
    row = next((row for row, error in enumerate(sweep.table["error"].tolist()) if not error), None)
    if row is None:
        return ""
    as_it_is = {sweep.axes[0]: [None]}
    return str(sweep.plan(row).quote_jobs(as_it_is, progress=False)["currency"][0])
