"""Set a general solver beside the sheet cutter: the plate-and-cut integer programme, solved by CP-SAT.

The model is that of Furini, Malaguti and Thomopulos (2016), with several sheet sizes at their own prices, demands,
pieces that may be turned, and guillotine cuts in any number of stages:

    min   sum of price(s) * bought(s)
    each plate size j:  bought(j) + made by cuts(j) >= cuts of(j) + pieces taken from(j)
    each piece i:       pieces taken(i) >= demand(i)

A plate is shrunk to the largest useful length and width before it is numbered, cuts stand on normal points up to half
of the plate, and a piece is taken only from a plate that holds nothing beside it. Plates only get smaller, so every
solution of the programme is a true cutting plan.

Each job is a JSON file as `cargo bench --bench cutting_sheets -- write DIR` makes it. Jobs with a kerf, a trim, a limit
on cuts or stages, prices of cuts or pieces to buy are not of this model and are named as such. The results file holds
one line a job, as that bench prints it: name, price, bound, gap, proven, milliseconds.
Needs the optional extra `peers`.
"""

import argparse
import json
import math
import time
from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path
from typing import Any

from ortools.sat.python import cp_model

Size = tuple[int, int]


class ModelTooLargeError(Exception):
    """The programme has more variables than allowed."""


@dataclass(frozen=True)
class Sheet:
    """A sheet size to buy."""

    size: Size
    price: int
    count: int | None


@dataclass(frozen=True)
class Piece:
    """A piece size to cut; `ways` are the sizes it takes up, one or two."""

    ways: tuple[Size, ...]
    count: int


@dataclass
class Plates:
    """The plates that can arise, the cuts of each and the pieces taken from each."""

    pieces: list[Piece]
    most: int
    number: dict[Size, int] = field(default_factory=dict)
    cuts: list[tuple[int, tuple[int, ...]]] = field(default_factory=list)
    takes: list[tuple[int, int]] = field(default_factory=list)
    open: list[Size] = field(default_factory=list)

    def __post_init__(self) -> None:
        """Remember the normal points of each set of ways, which many plates share."""
        self.points = cache(self._points)

    def _points(self, ways: tuple[tuple[int, ...], ...]) -> int:
        """All sums of lengths, as bits; each tuple holds the lengths one piece may have, and then its count."""
        sums = 1
        for *lengths, count in ways:
            for _ in range(count):
                old = sums
                for length in lengths:
                    sums |= old << length
                if sums == old:
                    break
        return sums

    def sums(self, size: Size, axis: int) -> int:
        """The normal points of a plate along an axis, as bits, not above the plate's own size."""
        ways = []
        for piece in self.pieces:
            lengths = {way[axis] for way in piece.ways if fits(way, size)}
            if lengths:
                ways.append((*sorted(lengths), piece.count))
        return self.points(tuple(ways)) & ((2 << size[axis]) - 1)

    def shrunk(self, size: Size) -> Size | None:
        """The largest useful size within a plate, or nothing if no piece fits."""
        while True:
            less = (self.sums(size, 0).bit_length() - 1, self.sums(size, 1).bit_length() - 1)
            if less[0] == 0:
                return None
            if less == size:
                return size
            size = less

    def numbered(self, size: Size) -> int | None:
        """The number of a plate after shrinking; a new one is kept to be cut later."""
        useful = self.shrunk(size)
        if useful is None:
            return None
        if useful not in self.number:
            self.number[useful] = len(self.number)
            self.open.append(useful)
        return self.number[useful]

    def fill(self) -> None:
        """Cut every open plate until no new one arises."""
        while self.open:
            size = self.open.pop()
            me = self.number[size]
            self.takes += [(i, me) for i in self.taken(size)]
            made = set()
            for first, second in self.halves(size):
                parts = (self.numbered(first), self.numbered(second))
                made.add(tuple(sorted(part for part in parts if part is not None)))
            self.cuts += [(me, parts) for parts in sorted(made)]
            if len(self.cuts) + len(self.takes) > self.most:
                raise ModelTooLargeError

    def halves(self, size: Size) -> Iterator[tuple[Size, Size]]:
        """The two parts of each cut, the first not above half of the plate."""
        for axis in (0, 1):
            sums = self.sums(size, axis)
            for at in range(1, size[axis] // 2 + 1):
                if sums >> at & 1:
                    yield resized(size, axis, at), resized(size, axis, size[axis] - at)

    def taken(self, size: Size) -> Iterator[int]:
        """The pieces that fill a plate so far that nothing fits beside them."""
        for i, piece in enumerate(self.pieces):
            for way in piece.ways:
                rests = ((size[0] - way[0], size[1]), (size[0], size[1] - way[1]))
                if fits(way, size) and not any(self.holds(rest) for rest in rests):
                    yield i
                    break

    def holds(self, size: Size) -> int:
        """How many of the pieces asked for fit in a plate, each on its own."""
        return sum(piece.count for piece in self.pieces if any(fits(way, size) for way in piece.ways))


def fits(inner: Size, outer: Size) -> bool:
    """Whether one size lies within another."""
    return inner[0] <= outer[0] and inner[1] <= outer[1]


def resized(size: Size, axis: int, to: int) -> Size:
    """A size with one side changed."""
    return (to, size[1]) if axis == 0 else (size[0], to)


def read_job(path: Path) -> tuple[list[Sheet], list[Piece]]:
    """Read a job; a `ValueError` names what the model has no place for."""
    job = json.loads(path.read_text(encoding="utf-8"))
    beyond = [key for key in ("kerf_tenths", "stages", "first_cut") if job[key]]
    beyond += ["keep_tenths"] * any(job["keep_tenths"])
    for sheet in job["stock"]:
        beyond += [key for key in ("cut_coins", "longest_cut_tenths", "throat_tenths") if sheet[key]]
        beyond += ["trim"] * any(sheet["trim"].values())
    beyond += ["bought_coins"] * any(piece["bought_coins"] is not None for piece in job["pieces"])
    if beyond:
        raise ValueError("not of this model: " + ", ".join(sorted(set(beyond))))
    sheets = [Sheet((s["length_tenths"], s["width_tenths"]), s["price_coins"], s["count"]) for s in job["stock"]]
    pieces: dict[tuple[Size, ...], int] = {}
    for p in job["pieces"]:
        size = (p["length_tenths"], p["width_tenths"])
        ways = tuple(sorted({size, size[::-1]})) if p["may_turn"] else (size,)
        pieces[ways] = pieces.get(ways, 0) + p["count"]
    return sheets, [Piece(ways, count) for ways, count in pieces.items()]


def programme(sheets: list[Sheet], pieces: list[Piece], most: int) -> tuple[cp_model.CpModel, dict[str, int]]:
    """Write the integer programme and count its parts."""
    plates = Plates(pieces, most)
    of_sheet = [plates.numbered(sheet.size) for sheet in sheets]
    plates.fill()
    model = cp_model.CpModel()
    room = [plates.holds(size) for size in plates.number]
    balance: list[list[Any]] = [[] for _ in room]
    price: list[Any] = []
    for s, (sheet, me) in enumerate(zip(sheets, of_sheet, strict=True)):
        if me is not None:
            top = room[me] if sheet.count is None else min(room[me], sheet.count)
            bought = model.new_int_var(0, top, f"buy{s}")
            balance[me].append(bought)
            price.append(sheet.price * bought)
    for me, parts in plates.cuts:
        cut = model.new_int_var(0, room[me], "")
        balance[me].append(-cut)
        for part in parts:
            balance[part].append(cut)
    got: list[list[Any]] = [[] for _ in pieces]
    for i, me in plates.takes:
        take = model.new_int_var(0, pieces[i].count, "")
        balance[me].append(-take)
        got[i].append(take)
    for terms in balance:
        model.add(cp_model.LinearExpr.sum(terms) >= 0)
    for piece, terms in zip(pieces, got, strict=True):
        model.add(cp_model.LinearExpr.sum(terms) >= piece.count)
    model.minimize(cp_model.LinearExpr.sum(price))
    sizes = {"plates": len(room), "variables": len(price) + len(plates.cuts) + len(plates.takes)}
    return model, sizes


def read_results(path: Path) -> dict[str, tuple[int, int]]:
    """Our price and bound of each job."""
    ours = {}
    for line in path.read_text(encoding="utf-8").splitlines():
        words = line.rsplit(maxsplit=5)
        if len(words) == 6 and words[1].isdigit() and words[2].isdigit():
            ours[words[0].strip()] = (int(words[1]), int(words[2]))
    return ours


def cheaper(theirs: int | None, ours: int | None) -> str:
    """Who has the cheaper plan."""
    if theirs is None or ours is None:
        return "-" if ours is None else "ours (solver has none)"
    if theirs == ours:
        return "same"
    return f"ours by {theirs - ours}" if ours < theirs else f"SOLVER by {ours - theirs}"


def run(path: Path, name: str, ours: tuple[int, int] | None, args: argparse.Namespace) -> str:
    """Solve one job and write its line."""
    try:
        start = time.monotonic()
        model, sizes = programme(*read_job(path), args.most)
        built = time.monotonic() - start
    except ModelTooLargeError:
        return f"{name:26} model too large (above {args.most} variables)"
    except (OSError, ValueError) as problem:
        return f"{name:26} {problem}"
    solver = cp_model.CpSolver()
    solver.parameters.max_time_in_seconds = args.seconds
    solver.parameters.num_workers = args.workers
    solver.parameters.linearization_level = args.linear
    status = solver.solve(model)
    found = status in (cp_model.OPTIMAL, cp_model.FEASIBLE)
    theirs = round(solver.objective_value) if found else None
    known = ours or (None, None)
    bound = math.ceil(solver.best_objective_bound - 1e-6)
    cells = [sizes["plates"], sizes["variables"], f"{built:.1f}", solver.status_name(status), theirs]
    cells += [bound, f"{solver.wall_time:.1f}", *known]
    return line_of(name, cells, cheaper(theirs, known[0]))


def line_of(name: str, cells: list[Any], last: str) -> str:
    """One line of the table; what is not known is "none"."""
    widths = (7, 9, 7, 9, 8, 7, 7, 8, 8)
    texts = ["none" if cell is None else str(cell) for cell in cells]
    return f"{name:26} " + " ".join(text.rjust(w) for text, w in zip(texts, widths, strict=True)) + f"  {last}"


def main() -> None:
    """Read the arguments and print the table."""
    parser = argparse.ArgumentParser(description="Solve sheet-cutting jobs by the plate-and-cut programme with CP-SAT.")
    parser.add_argument("folder", type=Path, help="folder of jobs as JSON")
    parser.add_argument("names", nargs="*", help='jobs, as "class 01 n 40"; all of the folder if none is named')
    parser.add_argument("--results", type=Path, help="our own prices and bounds")
    parser.add_argument("--seconds", type=float, default=60.0, help="time limit of one job (default 60)")
    parser.add_argument("--workers", type=int, default=1, help="threads of the solver (default 1)")
    parser.add_argument("--linear", type=int, default=1, choices=(0, 1, 2), help="linearisation level (default 1)")
    parser.add_argument("--most", type=int, default=300_000, help="most variables of a model (default 300000)")
    args = parser.parse_args()
    ours = read_results(args.results) if args.results else {}
    names = args.names or sorted(path.stem.replace("_", " ") for path in args.folder.glob("*.json"))
    by_file = {name.replace(" ", "_"): value for name, value in ours.items()}
    heads = ["plates", "variables", "build s", "status", "solver", "bound", "s", "ours", "bound"]
    print(line_of("job", heads, "cheaper"))
    for name in names:
        stem = name.replace(" ", "_")
        print(run(args.folder / f"{stem}.json", name, by_file.get(stem), args), flush=True)


if __name__ == "__main__":
    main()
