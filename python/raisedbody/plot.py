"""Plots of results with matplotlib, the optional extra ``plot``: ``pip install 'raisedbody[plot]'``.

Each function draws one result on one pair of axes and gives them back, to be titled, scaled or drawn over; ``ax=``
takes axes of your own. Axes carry their units, limits are lines with their names, and colours come with markers, lines
and hatches that tell series apart in black and white too. Nothing is worked out anew: what is drawn stands in the
tables.

In the signatures a ``Column`` is the name of a number, or a pair of names that are the two ends of a range; ``Bounds``
are the least and the most that a number may be, None for no bound.

Matplotlib is imported when a function is called, not before.
"""

from __future__ import annotations

from raisedbody import _columns as columns
from raisedbody import _marks as marks
from raisedbody.exceptions import refused

TYPE_CHECKING = False  # `typing`, NumPy and matplotlib would take most of the time that importing this package takes
if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence
    from typing import Any

    from matplotlib.axes import Axes

    from raisedbody._columns import Bounds, Column
    from raisedbody._core import Choice, Comparison, HoleLine, HoleLinePlan, Odds, Quote, Sweep
    from raisedbody.table import Table

__all__ = ["bars", "choice", "comparison", "drivers", "hole_line", "odds", "scatter", "sweep"]

_FEW = 12
"""Up to so many values of an entry each have a tick with the text as written, and so many options their number."""


def comparison(
    comparison: Comparison, *numbers: Column, limits: Mapping[str, Bounds] | None = None, ax: Axes | None = None
) -> Axes:
    """Draw one number of each plan that was compared as a bar, or a range as a bar from its low end to its high end.

    Args:
        comparison: What `compare` gave.
        *numbers: Numbers of its table by name, all of one unit; a pair of names is the two ends of a range.
        limits: Least and most value of a number, None for no bound, each drawn as a line.
        ax: Axes to draw on; new ones where left out.

    Returns:
        The axes.

    Raises:
        InputError: A name that is no number of the comparison, numbers of several units, or prices in several
            currencies.

    Example:
        >>> import raisedbody as rb
        >>> plan = rb.Plan.read("examples/workshop_bus.toml")
        >>> both = rb.compare({"18 ga": plan, "16 ga": plan.replace(skin={"gauge": 16})})
        >>> rb.plot.comparison(both, "skin_mass_kg").get_xlabel()
        'skin mass, kg'
    """
    table = comparison.table
    currencies = sorted({word for price in table["price"].tolist() for word in price.split() if word.isupper()})
    if len(currencies) > 1 and any(columns.is_money(name) for column in numbers for name in columns.names_of(column)):
        message = f"the plans are priced in {' and '.join(currencies)}, which no common axis can show"
        raise refused("numbers", str(numbers), message)
    return bars(table, "name", *numbers, limits=limits, currency="".join(currencies[:1]), ax=ax)


def bars(
    table: Mapping[str, Any],
    names: str,
    *numbers: Column,
    limits: Mapping[str, Bounds] | None = None,
    currency: str = "",
    ax: Axes | None = None,
) -> Axes:
    """Draw numbers or ranges of any table, a bar for each row: lives by zone, loads by support, motions of a roof.

    A range of which only the low end is known is an arrow from there; where nothing is known, that is written.

    Args:
        table: Columns by their names, as results of this package have them.
        names: The column that names the rows.
        *numbers: Numbers by name, all of one unit; a pair of names is the two ends of a range.
        limits: Least and most value of a number, None for no bound, each drawn as a line.
        currency: Of columns that hold money.
        ax: Axes to draw on; new ones where left out.

    Returns:
        The axes, the first row on top.

    Raises:
        InputError: A name that is no column, or that holds no numbers; numbers of several units.

    Example:
        >>> import raisedbody as rb
        >>> build = rb.Plan.read("examples/mobile_library.toml").evaluate()
        >>> ends = ("eaten_through_shortest_years", "eaten_through_longest_years")
        >>> rb.plot.bars(build.outlook, "zone", ends).get_xlabel()
        'eaten through, years'
    """
    import numpy as np

    units = {columns.unit_of(name, currency) for column in numbers for name in columns.names_of(column)}
    if len(units) != 1:
        message = "name one or more columns of one unit" + (f", not of {', '.join(sorted(units))}" if units else "")
        raise refused("numbers", str(numbers), message)
    if names not in table:
        raise refused("names", names, f"there is no column {names}; there are {', '.join(table)}")
    rows = [str(name) for name in table[names]]
    found = [[columns.numbers(table, name, "numbers") for name in columns.names_of(column)] for column in numbers]
    ax = marks.axes_or_new(ax, len(rows) * len(numbers))
    thick = 0.7 / len(numbers)
    for i, (column, ends) in enumerate(zip(numbers, found, strict=True)):
        at = np.arange(len(rows)) + (i - (len(numbers) - 1) / 2) * thick
        low = ends[0] if len(ends) == 2 else np.zeros(len(rows))
        high = ends[-1]
        name = columns.label(column, currency).split(", ")[0] if len(numbers) > 1 else ""
        known = ~np.isnan(low) & ~np.isnan(high)
        drawn = ax.barh(at[known], (high - low)[known], thick, low[known], label=name, **marks.fill(i))
        if len(ends) == 1:
            words = [f"{value:,.4g}" for value in high[known]]
            box = {"facecolor": "white", "alpha": 0.8, "pad": 0.5, "linewidth": 0}
            ax.bar_label(drawn, words, padding=3, fontsize="small", bbox=box)
        for bar in drawn if len(ends) == 2 else ():
            bar.sticky_edges.x.clear()  # room before the low ends too
        open_ended = ~np.isnan(low) & np.isnan(high) & (len(ends) == 2)
        if open_ended.any():
            own = "at least" if len(numbers) == 1 else f"{name}: at least"
            ax.plot(low[open_ended], at[open_ended], ">", color=marks.COLOURS[i], markersize=8, label=own)
        for y in at[~known & ~open_ended]:
            ax.text(0.01, y, "not known", transform=ax.get_yaxis_transform(), va="center", fontsize="small")
    ax.set_yticks(range(len(rows)), rows)
    ax.margins(x=0.2 if any(len(ends) == 1 for ends in found) else 0.05)
    ax.set_ylim(len(rows) - 0.5, -0.5)
    marks.draw_limits(ax, [("x", column) for column in numbers], limits)
    ax.set_xlabel(columns.label(numbers[0], currency) if len(numbers) == 1 else units.pop())
    return marks.finish(ax, below=True)


def sweep(
    sweep: Sweep,
    x: str,
    y: Column,
    *,
    by: Sequence[str] | None = None,
    where: Mapping[str, str] | None = None,
    at: Sequence[float] | None = None,
    at_label: str | None = None,
    limits: Mapping[str, Bounds] | None = None,
    ax: Axes | None = None,
) -> Axes:
    """Draw how a number follows an entry that was swept, a line for each combination of the others.

    A combination that cannot be, and a number that is not known, leave a gap.

    Args:
        sweep: What `Plan.sweep` gave.
        x: The path of an entry that varies, or the name of a number.
        y: The name of a number; a pair of names is the two ends of a band.
        by: Entries that each have a line for every value: the first in colours and markers, the rest in kinds of line.
            All that vary beside `x` where left out.
        where: The value to keep of some entries, as the table has it: ``{"skin.coating": "A40"}``.
        at: Where each value of `x` stands on its axis, for values that are no plain quantity.
        at_label: What `at` is, with its unit.
        limits: Least and most value of a number that is drawn, None for no bound, each drawn as a line.
        ax: Axes to draw on; new ones where left out.

    Returns:
        The axes.

    Raises:
        InputError: A name that is neither entry nor number, a value to keep that no row has, or not as many places as
            values.

    Example:
        >>> import raisedbody as rb
        >>> plan = rb.Plan.read("examples/workshop_bus.toml")
        >>> swept = plan.sweep({"skin.gauge": [16, 18], "fastening.pitch": ["3 in", "4 in"]})
        >>> ax = rb.plot.sweep(swept, "fastening.pitch", "rivets_count", by=["skin.gauge"])
        >>> ax.get_xlabel(), ax.get_ylabel()
        ('fastening.pitch', 'rivets, count')
    """
    import numpy as np

    table, axes = sweep.table, sweep.axes
    kept = columns.kept(table, axes, where or {})
    if by is None:
        by = [path for path in axes if path != x and len(set(table[path][kept])) > 1]
    for path in by:
        if path not in axes:
            raise refused("by", path, f"no entry of the sweep; it varies {', '.join(axes)}")
    ends = [columns.numbers(table, name, "y") for name in columns.names_of(y)]
    currency = columns.currency_of(sweep) if any(map(columns.is_money, (x, *columns.names_of(y)))) else ""
    if x in axes:
        values = list(dict.fromkeys(table[x].tolist()))
        places = columns.places(values, at)
        along = np.array([places[value] for value in table[x].tolist()])
    else:
        along = columns.numbers(table, x, "x")
    said_x, said_y = columns.label(x, currency), columns.label(y, currency)
    ax = marks.axes_or_new(ax)
    for rows, name, (colour, line) in columns.series(table, by, np.flatnonzero(kept)):
        rows = rows[np.argsort(along[rows], kind="stable")]
        look = marks.style(colour, line) | ({} if x in axes else {"linestyle": ""})
        if len(ends) == 2:
            ax.fill_between(along[rows], ends[0][rows], ends[1][rows], color=look["color"], alpha=0.2, linewidth=0)
            ax.plot(along[rows], ends[1][rows], markersize=4, **look)
        ax.plot(along[rows], ends[0][rows], markersize=4, label=name, **look)
    marks.draw_limits(ax, [("x", x), ("y", y)], limits)
    ax.set(xlabel=said_x, ylabel=said_y)
    if at is not None:
        ax.set_xlabel(at_label or f"{x}, as placed")
    elif x in axes:
        plain = columns.plain(values)
        if plain is None or len(values) <= _FEW:
            ax.set_xticks([places[value] for value in values], values)
        elif plain[1]:
            ax.set_xlabel(f"{x}, {plain[1]}")
    return marks.finish(ax, below=len(ax.get_legend_handles_labels()[1]) > 4)


def choice(choice: Choice, x: str, y: str, *, by: str | None = None, ax: Axes | None = None) -> Axes:
    """Draw the options that no other beats among all combinations of their sweep, and the limits that rule out others.

    Up to twelve options have their number in the printed list beside them. A limit on a number that neither axis shows
    is not drawn; the legend says how many combinations are over any limit.

    Args:
        choice: What `Sweep.choose` gave.
        x: The name of a number.
        y: The name of a number.
        by: An entry of the sweep; options with different values have different marks.
        ax: Axes to draw on; new ones where left out.

    Returns:
        The axes.

    Raises:
        InputError: A name that is no number, or an entry that the sweep does not vary.

    Example:
        >>> import raisedbody as rb
        >>> plan = rb.Plan.read("examples/workshop_bus.toml")
        >>> swept = plan.sweep({"skin.gauge": [16, 18, 20], "fastening.pitch": ["3 in", "4 in"]})
        >>> chosen = swept.choose(minimise=["skin_mass_kg", "rivets_count"], limits={"sheet_thickness_mm": (1.2, None)})
        >>> rb.plot.choice(chosen, "skin_mass_kg", "rivets_count").get_ylabel()
        'rivets, count'
    """
    import numpy as np

    table, options = choice.sweep.table, choice.table
    if by is not None and by not in choice.sweep.axes:
        raise refused("by", by, f"no entry of the sweep; it varies {', '.join(choice.sweep.axes)}")
    across, up = columns.numbers(table, x, "x"), columns.numbers(table, y, "y")
    currency = columns.currency_of(choice.sweep) if columns.is_money(x) or columns.is_money(y) else ""
    limits = columns.limits_of(choice.left_out)
    over = np.zeros(len(across), dtype=bool)
    for name, (least, most) in limits.items():
        over |= (table[name] < (-np.inf if least is None else least)) | (
            table[name] > (np.inf if most is None else most)
        )
    chosen = np.isin(table["row"], options["row"])
    ax = marks.axes_or_new(ax)
    for rows, sign, words in ((over & ~chosen, "x", "over a limit"), (~over & ~chosen, ".", "beaten")):
        rows &= ~np.isnan(across) & ~np.isnan(up)
        if rows.any():
            ax.plot(
                across[rows], up[rows], sign, color=marks.GREY, markersize=5, label=f"{words}: {rows.sum()}", zorder=1
            )
    paths = [] if by is None else [by]
    for rows, name, (colour, _) in columns.series(table, paths, np.flatnonzero(chosen)):
        look = marks.style(colour) | {"linestyle": "", "markerfacecolor": "none", "markeredgewidth": 1.6}
        ax.plot(across[rows], up[rows], markersize=8, label=name or "options", **look)
    for i in range(len(options["row"]) if len(options["row"]) <= _FEW else 0):
        place = (options[x][i], options[y][i])
        ax.annotate(str(i + 1), place, xytext=(6, 5), textcoords="offset points", fontsize="small")
    marks.draw_limits(ax, [("x", x), ("y", y)], limits)
    ax.set(xlabel=columns.label(x, currency), ylabel=columns.label(y, currency))
    return marks.finish(ax)


def odds(
    odds: Odds, quote: Quote | None = None, *, shares: Iterable[float] = (0.1, 0.5, 0.9), ax: Axes | None = None
) -> Axes:
    """Draw in which share of all cases each total holds, with some shares marked and the total as quoted.

    Args:
        odds: What `Quote.odds` gave.
        quote: The quote that it came from, for the line of its total; no such line where left out.
        shares: Shares to mark, each between 0 and 1; 0.9 is called P90.
        ax: Axes to draw on; new ones where left out.

    Returns:
        The axes.

    Raises:
        InputError: A share that is not between 0 and 1.

    Example:
        >>> import raisedbody as rb
        >>> quote = rb.Plan.read("examples/mobile_library.toml").evaluate().quote
        >>> rb.plot.odds(quote.odds(draws=2_000), quote).get_xlabel()
        'total, USD'
    """
    import numpy as np

    marked = [(share, odds.price(share)) for share in shares]
    ax = marks.axes_or_new(ax)
    totals = np.asarray(odds.totals)
    held = np.arange(1, len(totals) + 1) / len(totals)
    ax.plot(totals, held, color=marks.COLOURS[0], linewidth=2)
    for i, (share, price) in enumerate(marked, start=1):
        look = marks.style(i)
        own = f"P{100 * share:g}: {float(price):,.0f} {odds.currency}"
        ax.plot(float(price), share, label=own, **(look | {"linestyle": ""}))
        ax.vlines(float(price), 0, share, color=look["color"], linestyle=look["linestyle"], linewidth=1.2)
    if quote is not None:
        words = f"as quoted, {float(quote.total):,.0f} {odds.currency}: holds in {100 * odds.holds:.0f} %"
        ax.axvline(float(quote.total), color="black", linewidth=1.6, label=words)
    ax.set(xlabel=f"total, {odds.currency}", ylabel="share of cases in which it holds", ylim=(0, 1.02))
    ax.yaxis.set_major_formatter(lambda share, _: f"{100 * share:.0f} %")
    return marks.finish(ax, loc="lower right")


def drivers(odds: Odds, *, most: int = 8, ax: Axes | None = None) -> Axes:
    """Draw what drives the spread of a quote: how far each cause moves the price, from its low to its high case of ten.

    Beside each bar stands the share of the price's variance that goes with it.

    Args:
        odds: What `Quote.odds` gave.
        most: How many causes, those that drive most.
        ax: Axes to draw on; new ones where left out.

    Returns:
        The axes, the greatest on top.

    Example:
        >>> import raisedbody as rb
        >>> quote = rb.Plan.read("examples/mobile_library.toml").evaluate().quote
        >>> rb.plot.drivers(quote.odds(draws=2_000), most=3).get_xlabel()
        'moves the price by, USD'
    """
    rows = list(odds.drivers.rows())[: max(most, 0)]
    ax = marks.axes_or_new(ax, len(rows))
    drawn = ax.barh(range(len(rows)), [row["swing"] for row in rows], 0.7, **marks.fill(0))
    ax.bar_label(drawn, [f"{100 * row['of_variance']:.0f} % of variance" for row in rows], padding=3, fontsize="small")
    ax.set_yticks(range(len(rows)), [row["cause"] for row in rows])
    ax.set_ylim(len(rows) - 0.5, -0.5)
    ax.margins(x=0.4)
    ax.set_xlabel(f"moves the price by, {odds.currency}")
    return marks.finish(ax)


def scatter(table: Any, x: str, y: str, *, by: str | None = None, ax: Axes | None = None) -> Axes:  # noqa: ANN401
    """Draw one number of any table against another, a mark for each row: a season of quotes, cuts to choose from.

    Rows in which either number is not known are left out, such as jobs that could not be quoted.

    Args:
        table: A table of this package, or a dataframe of any library that narwhals knows, such as `quote_batch` gives.
        x: The name of a column of numbers.
        y: The name of a column of numbers.
        by: A column; rows with different values have different marks.
        ax: Axes to draw on; new ones where left out.

    Returns:
        The axes.

    Raises:
        InputError: A name that is no column of numbers, prices in several currencies, or more than a dozen values of
            `by`.

    Example:
        >>> import pandas as pd
        >>> import raisedbody as rb
        >>> jobs = pd.DataFrame({"skin.gauge": [16, 18], "fastening.pitch": ["3 in", "4 in"]})
        >>> quotes = rb.quote_batch(jobs, rb.Plan.read("examples/mobile_library.toml"))
        >>> rb.plot.scatter(quotes, "rivets_count", "price_total").get_ylabel()
        'price, USD'
    """
    import numpy as np

    table = columns.of_frame(table)
    across, up = columns.numbers(table, x, "x"), columns.numbers(table, y, "y")
    drawn = ~np.isnan(across) & ~np.isnan(up)
    currencies = sorted(
        {str(own) for own in np.asarray(table.get("currency", np.full(len(drawn), "")))[drawn]} - {"", "None"}
    )
    money = columns.is_money(x) or columns.is_money(y)
    if money and len(currencies) > 1:
        message = f"prices are in {' and '.join(currencies)}; keep the rows of one currency"
        raise refused("table", ", ".join(currencies), message)
    if by is not None and by not in table:
        raise refused("by", by, f"there is no column {by}; there are {', '.join(table)}")
    if by is not None and len(set(np.asarray(table[by])[drawn].tolist())) > _FEW:
        raise refused("by", by, f"more than {_FEW} values, which no set of marks tells apart")
    ax = marks.axes_or_new(ax)
    places = np.flatnonzero(drawn)
    if by is not None and np.asarray(table[by]).dtype.kind in "biuf":
        places = places[np.argsort(np.asarray(table[by])[places], kind="stable")]
    for rows, name, (colour, _) in columns.series(table, [] if by is None else [by], places):
        look = marks.style(colour) | {"linestyle": ""}
        ax.plot(across[rows], up[rows], markersize=4, alpha=0.6, markeredgewidth=0, label=name, **look)
    currency = "".join(currencies[:1])
    ax.set(xlabel=columns.label(x, currency), ylabel=columns.label(y, currency))
    return marks.finish(ax)


def hole_line(line: HoleLine | HoleLinePlan, *, ax: Axes | None = None) -> Axes:
    """Draw a line of old rivet holes with the true line through them, or the new line that was planned over them.

    Distances off the string are drawn much larger than places along.

    Args:
        line: The line as measured (holes with 95 % of the tape's error, and the band of the true line), or what
            `HoleLine.plan` gave (holes used again, new and plugged).
        ax: Axes to draw on; new ones where left out.

    Returns:
        The axes.

    Example:
        >>> import raisedbody as rb
        >>> build = rb.Plan.read("examples/mobile_library.toml").evaluate()
        >>> rb.plot.hole_line(build.hole_lines["rub rail, left"]).get_xlabel()
        'along the line, mm'
    """
    import numpy as np

    from raisedbody._core import HoleLinePlan

    measured = line.line if isinstance(line, HoleLinePlan) else line
    fit = measured.fit()
    span = np.linspace(measured.start_mm, measured.end_mm, 60)
    middle = np.array([fit.at_mm(f"{x} mm") for x in span])
    ax = marks.axes_or_new(ax)
    ax.plot(span, middle, color="0.4", linewidth=1.2, label="true line")
    if isinstance(line, HoleLinePlan):
        holes, old = line.holes, line.old_holes
        new, plugged = holes["new"].astype(bool), old["fate"] == "plug"
        kinds: tuple[tuple[Table, Any, str, dict[str, Any]], ...] = (
            (holes, ~new, "old hole, used again", {"marker": "o", "color": marks.COLOURS[0]}),
            (holes, new, "new hole", {"marker": "D", "color": marks.COLOURS[1], "markerfacecolor": "none"}),
            (old, plugged, "old hole, plugged", {"marker": "x", "color": "black"}),
        )
        for table, rows, words, look in kinds:
            ax.plot(table["along_mm"][rows], table["off_mm"][rows], linestyle="", label=words, **look)
    else:
        within = 1.96 * np.array([fit.error_at_mm(f"{x} mm") for x in span])
        words = "95 % band of the true line"
        ax.fill_between(span, middle - within, middle + within, color=marks.GREY, alpha=0.4, lw=0, label=words)
        holes = measured.holes
        spoilt = holes["spoilt"].astype(bool)
        along, off, error = holes["along_mm"], holes["off_mm"], 1.96 * holes["off_error_mm"]
        words = "sound hole, with 95 % of the tape"
        sound: dict[str, Any] = {"fmt": "o", "markersize": 5, "capsize": 2, "linewidth": 0.8, "color": marks.COLOURS[0]}
        ax.errorbar(along[~spoilt], off[~spoilt], error[~spoilt], label=words, **sound)
        ax.plot(along[spoilt], off[spoilt], "x", color=marks.COLOURS[1], markersize=8, label="spoilt hole")
    ax.set(xlabel="along the line, mm", ylabel="off the string, mm")
    return marks.finish(ax, below=True)
