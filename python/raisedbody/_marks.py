"""How plots look: colours, with lines, markers and hatches that do without them; lines of limits; the legend."""

from __future__ import annotations

from raisedbody._columns import label, names_of

TYPE_CHECKING = False  # `typing` and matplotlib would take most of the time that importing this package takes
if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping
    from typing import Any

    from matplotlib.axes import Axes

    from raisedbody._columns import Bounds, Column

__all__ = ["COLOURS", "GREY", "axes_or_new", "draw_limits", "fill", "finish", "style"]

COLOURS = ("#0072B2", "#D55E00", "#009E73", "#CC79A7", "#E69F00", "#56B4E9", "#000000")
"""Okabe and Ito's, which people who cannot tell red from green tell apart; without the yellow, pale on white."""
GREY = "0.6"
_LINES: tuple[Any, ...] = ("-", "--", ":", "-.", (0, (6, 1, 1, 1, 1, 1)), (0, (1, 3)), (0, (8, 3)))
_MARKERS = "osD^vPX"
_HATCHES = ("", "///", "...", "xxx", "---", "\\\\\\", "+++")


def axes_or_new(ax: Axes | None, bars: int | None = None) -> Axes:
    """The axes given, or new ones, as high as so many level bars ask for."""
    try:
        import matplotlib.pyplot as plt
    except ModuleNotFoundError as error:
        problem = "plots need matplotlib, the optional extra `plot`: pip install 'raisedbody[plot]'"
        raise ModuleNotFoundError(problem, name=error.name) from error
    size = (7.5, 4.2) if bars is None else (7.5, 1.5 + 0.35 * bars)
    return plt.subplots(figsize=size, layout="constrained")[1] if ax is None else ax


def style(colour: int, line: int | None = None) -> dict[str, Any]:
    """Colour, marker and line of one of several series; told apart in black and white too."""
    line = colour if line is None else line
    return {
        "color": COLOURS[colour % len(COLOURS)],
        "marker": _MARKERS[colour % len(_MARKERS)],
        "linestyle": _LINES[line % len(_LINES)],
    }


def fill(index: int) -> dict[str, Any]:
    """Colour and hatch of one of several kinds of bar."""
    return {
        "facecolor": COLOURS[index % len(COLOURS)],
        "hatch": _HATCHES[index % len(_HATCHES)],
        "edgecolor": "white" if index % len(_HATCHES) else COLOURS[index % len(COLOURS)],
        "linewidth": 0,
    }


def draw_limits(ax: Axes, shown: Iterable[tuple[str, Column]], limits: Mapping[str, Bounds] | None) -> None:
    """Draw each bound of a column that an axis shows as a line with its name; `shown` pairs "x" or "y" with columns."""
    shown = list(shown)
    for name, (least, most) in (limits or {}).items():
        axis = next((axis for axis, column in shown if name in names_of(column)), None)
        for sign, bound in (("≥", least), ("≤", most)):
            if axis is None or bound is None:
                continue
            draw = ax.axvline if axis == "x" else ax.axhline
            words, _, unit = label(name).partition(", ")
            told = f"{bound:g}" if unit in ("", "ratio") else f"{bound:g} {unit}"
            line = "-." if sign == "≤" else (0, (5, 2, 1, 2, 1, 2))
            draw(
                bound,
                color="black",
                linestyle=line,
                linewidth=1.2,
                label=f"limit: {words} {sign} {told}",
            )


def finish(ax: Axes, *, below: bool = False, **legend: Any) -> Axes:  # noqa: ANN401 - whatever matplotlib takes
    """A faint grid behind, and where something has a name a legend, below the axes where bars would lie under it."""
    ax.set_axisbelow(True)
    ax.grid(color="0.9", linewidth=0.8)
    if ax.get_legend_handles_labels()[1]:
        legend = {"frameon": False, "fontsize": "small"} | legend
        if below:
            from matplotlib.transforms import ScaledTranslation

            under = ax.transAxes + ScaledTranslation(
                0, -0.5, ax.figure.dpi_scale_trans
            )  # half an inch: ticks and label
            place = {"loc": "upper center", "bbox_to_anchor": (0.5, 0), "bbox_transform": under, "ncols": 2}
            legend = place | legend
        ax.legend(**legend)
    return ax
