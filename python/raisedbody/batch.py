"""Many quotes in one call: dataframes in, dataframes out, of whichever library they are."""

from __future__ import annotations

from raisedbody.exceptions import refused

TYPE_CHECKING = False  # `typing` and narwhals would take most of the time that importing this package takes
if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Mapping
    from typing import Any

    import narwhals as nw

    from raisedbody._core import Plan

    _Progress = bool | Callable[[int, int], object]
    _Frame = nw.DataFrame[Any]

__all__ = ["quote_batch"]

_ROWS = 50_000
"""Rows that are worked out at once: the texts of a table are all as wide as its longest."""


def quote_batch(
    jobs: Any,  # noqa: ANN401 - a frame of any library that narwhals knows
    plan: Plan,
    *,
    entries: Mapping[str, str] | None = None,
    whole: bool = False,
    progress: _Progress = True,
) -> Any:  # noqa: ANN401
    """Quote many jobs: a base plan, and in each row of a table what differs.

    A row that cannot be quoted says why in its column ``error`` and stops no other. Memory is that of one frame and its
    quotes: hand over a stream of frames where there are more jobs than fit. Other threads run meanwhile, and it can be
    interrupted. The function runs unchanged under engines that map a function over the partitions of a larger frame.

    Args:
        jobs: A dataframe of pandas, polars, pyarrow or any other library that narwhals knows as eager, one job a row;
            or an iterable of such frames, or of Arrow record batches.
        plan: The plan that every job starts from.
        entries: Which column is which entry of the plan, by its path: ``{"gauge": "skin.gauge"}``. Other columns are
            carried over untouched. Where it is left out, each column whose name has a dot in it is the entry of that
            name.
        whole: Whether each job is evaluated whole, its cut list, lift and every check included: far slower. Else its
            price and numbers are those of the plan without its ``cutting``; see `Plan.quote_jobs`.
        progress: Whether a long run shows on standard error how far it is; or a callable that is told now and then how
            many jobs of a frame are done and of how many.

    Returns:
        A frame of the same library with the columns of `jobs`, then those of `Plan.quote_jobs`; for an iterable, an
        iterator of such frames, each made when it is asked for.

    Raises:
        InputError: An entry that no plan has, one that two columns change, no column that is an entry, a column whose
            name a result has too.
        TypeError: Something that is neither a frame nor an iterable of frames.

    Example:
        >>> import pandas as pd
        >>> import raisedbody as rb
        >>> plan = rb.Plan.read("examples/workshop_bus.toml")
        >>> jobs = pd.DataFrame({"job": ["a", "b"], "skin.gauge": [16, 18]})
        >>> quotes = rb.quote_batch(jobs, plan)
        >>> list(quotes["job"]), bool(quotes["skin_mass_kg"][0] > quotes["skin_mass_kg"][1])
        (['a', 'b'], True)
    """
    from collections.abc import Iterable, Mapping

    import narwhals as nw

    frame = _frame(jobs)
    if frame is not None:
        return _quoted(frame, plan, entries, whole=whole, progress=progress).to_native()
    if isinstance(nw.from_native(jobs, pass_through=True), nw.LazyFrame):
        problem = "jobs: a lazy frame has no rows yet; collect it, or map this function over its partitions"
        raise TypeError(problem)
    if isinstance(jobs, (str, bytes, Mapping)) or not isinstance(jobs, Iterable):
        problem = f"jobs: a dataframe or an iterable of dataframes is asked for, not {type(jobs).__name__}"
        raise TypeError(problem)
    return _stream(jobs, plan, entries, whole=whole, progress=progress)


def _frame(jobs: Any) -> _Frame | None:  # noqa: ANN401
    """Give a frame as narwhals sees it; nothing where it is none. A record batch becomes a table of one batch."""
    import narwhals as nw

    if type(jobs).__module__.startswith("pyarrow") and type(jobs).__name__ == "RecordBatch":
        from importlib import import_module

        jobs = import_module("pyarrow").Table.from_batches([jobs])
    if isinstance(jobs, nw.DataFrame):
        return jobs
    frame = nw.from_native(jobs, eager_only=True, pass_through=True)
    return frame if isinstance(frame, nw.DataFrame) else None


def _stream(
    frames: Iterable[Any], plan: Plan, entries: Mapping[str, str] | None, *, whole: bool, progress: _Progress
) -> Iterator[Any]:
    for own in frames:
        frame = _frame(own)
        if frame is None:
            problem = f"jobs: every item of a stream is a dataframe or a record batch, not {type(own).__name__}"
            raise TypeError(problem)
        yield _quoted(frame, plan, entries, whole=whole, progress=progress).to_native()


def _quoted(
    frame: _Frame, plan: Plan, entries: Mapping[str, str] | None, *, whole: bool, progress: _Progress
) -> _Frame:
    import narwhals as nw

    paths = _paths(frame.columns, entries)
    values = {path: frame.get_column(column).to_list() for column, path in paths.items()}
    empty = plan.quote_jobs({path: [] for path in values}, whole=whole, progress=False)
    taken = [name for name in empty if name in frame.columns]
    if taken:
        raise refused("jobs", ", ".join(taken), "a result has this name; rename the column")
    quotes: dict[str, list[Any]] = {}
    kinds: dict[str, Any] = {}
    for start in range(0, max(len(frame), 1), _ROWS):

        def tell(done: int, of: int, start: int = start) -> None:
            if callable(progress):
                progress(start + done, len(frame))

        part = {path: column[start : start + _ROWS] for path, column in values.items()}
        told = tell if callable(progress) else progress
        for name, column in plan.quote_jobs(part, whole=whole, progress=told).items():
            quotes.setdefault(name, []).extend(column.tolist())
            kinds[name] = nw.Float64 if column.dtype.kind == "f" else nw.String
    backend, index = frame.implementation, nw.maybe_get_index(frame)
    columns = [nw.new_series(name, column, kinds[name], backend=backend) for name, column in quotes.items()]
    if index is not None:
        columns = [nw.maybe_set_index(series, index=index) for series in columns]
    return frame.with_columns(*columns)


def _paths(columns: list[str], entries: Mapping[str, str] | None) -> dict[str, str]:
    """Which column is which entry of the plan."""
    if entries is None:
        entries = {column: column for column in columns if "." in column}
    if not entries:
        fix = (
            'name columns by the entries they change, such as "skin.gauge", or say it: entries={"gauge": "skin.gauge"}'
        )
        raise refused("jobs", ", ".join(columns), f"no column is an entry of the plan; {fix}")
    for column in entries:
        if column not in columns:
            problem = f"there is no column {column}; there are {', '.join(columns) or 'none'}"
            raise refused("entries", column, problem)
    paths = dict(entries)
    for path in paths.values():
        twice = [column for column, own in paths.items() if own == path]
        if len(twice) > 1:
            raise refused("entries", path, f"{' and '.join(twice)} both change this; let one of them go")
    return paths
