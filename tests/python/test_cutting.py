"""Cut lists as a user works with them, beside HiGHS (scipy.optimize.milp). Laws and brute force are tested in Rust."""

import itertools
import json
import os
import pickle
import random
import signal
import threading
import time
from collections.abc import Sequence

import numpy as np
import pytest
import scipy.optimize
import scipy.sparse

import raisedbody as rb
from raisedbody.exceptions import InputError, QuantityError

LIBRARY = "examples/mobile_library.toml"
SHEAR = {"longest_cut": "20 m", "cut_time": "0 min"}


@pytest.fixture(scope="module")
def build() -> rb.Evaluation:
    return rb.Plan.read(LIBRARY).evaluate()


def highs(costs: Sequence[int], rows: Sequence[tuple[dict[int, int], int]]) -> int:
    """The least cost in whole numbers that covers every row: a general solver's proven optimum."""
    matrix = scipy.sparse.lil_array((len(rows), len(costs)))
    for i, (row, _) in enumerate(rows):
        for j, value in row.items():
            matrix[i, j] = value
    constraint = scipy.optimize.LinearConstraint(matrix.tocsr(), lb=[need for _, need in rows])
    bounds = scipy.optimize.Bounds(0, np.inf)
    found = scipy.optimize.milp(np.array(costs), constraints=constraint, bounds=bounds, integrality=np.ones(len(costs)))
    assert found.success, found.message
    return round(found.fun)


def bars_by_highs(bars: list[tuple[int, int]], pieces: list[tuple[int, int]], kerf: int) -> int:
    """Arc flow (Valerio de Carvalho 1999): a bar is a path from nought to its length."""
    sizes = [(length + kerf, count) for length, count in pieces]
    ends = [(length + kerf, price) for length, price in bars]
    most = max(end for end, _ in ends)
    arcs: list[tuple[int, int, int | None]] = []
    reached = {0}
    for at in range(most):
        if at in reached:
            for i, (size, _) in enumerate(sizes):
                if at + size <= most:
                    arcs.append((at, at + size, i))
                    reached.add(at + size)
    nodes = sorted(reached | {end for end, _ in ends})
    arcs.extend((a, b, None) for a, b in itertools.pairwise(nodes))
    costs = [0] * len(arcs) + [price for _, price in ends]
    rows: list[tuple[dict[int, int], int]] = []
    for node in nodes[1:]:
        # As much comes in as goes on or ends here: both ways as an inequality.
        flow: dict[int, int] = {}
        for j, (a, b, _) in enumerate(arcs):
            if b == node:
                flow[j] = flow.get(j, 0) + 1
            elif a == node:
                flow[j] = flow.get(j, 0) - 1
        for k, (end, _) in enumerate(ends):
            if end == node:
                flow[len(arcs) + k] = -1
        rows += [(flow, 0), ({j: -value for j, value in flow.items()}, 0)]
    for i, (_, count) in enumerate(sizes):
        rows.append(({j: 1 for j, (*_, piece) in enumerate(arcs) if piece == i}, count))
    return highs(costs, rows)


def test_bars_cost_what_highs_finds() -> None:
    draw = random.Random(9)
    for _ in range(40):
        bars = [(draw.randint(20, 60), draw.randint(5, 40)) for _ in range(draw.randint(1, 3))]
        longest = max(length for length, _ in bars)
        pieces = [(length, draw.randint(1, 4)) for length in draw.sample(range(3, longest + 1), draw.randint(1, 6))]
        kerf = draw.choice([0, 1, 2])
        # In centimetres: no bar is shorter than 100 mm, no kerf wider than 20 mm.
        cuts = rb.BarCuts(
            bars=[{"length": f"{length} cm", "price": f"{price} USD"} for length, price in bars],
            pieces=[{"name": f"p{i}", "length": f"{le} cm", "count": n} for i, (le, n) in enumerate(pieces)],
            saw={"kerf": f"{kerf} cm"},
        )
        assert cuts.faults() == ()
        assert cuts.is_proven
        assert cuts.price == f"{bars_by_highs(bars, pieces, kerf)}.00 USD", (bars, pieces, kerf)


def sheets_by_highs(sheets: list[tuple[int, int, int]], blanks: list[tuple[int, int, int]], may_turn: bool) -> int:
    """Plate and cut (Furini, Malaguti, Thomopulos 2016): every plate is cut in two, kept as a piece, or left."""
    ways = [{(length, width), (width, length)} if may_turn else {(length, width)} for length, width, _ in blanks]
    plates: dict[tuple[int, int], int] = {}
    queue = [(length, width) for length, width, _ in sheets]
    cuts: list[tuple[tuple[int, int], tuple[int, int], tuple[int, int]]] = []
    while queue:
        plate = queue.pop()
        if plate in plates:
            continue
        plates[plate] = len(plates)
        x, y = plate
        halves = [((q, y), (x - q, y)) for q in range(1, x // 2 + 1)] + [
            ((x, q), (x, y - q)) for q in range(1, y // 2 + 1)
        ]
        for one, two in halves:
            cuts.append((plate, one, two))
            queue += [one, two]
    takes = [(plate, i) for plate in plates for i, own in enumerate(ways) if plate in own]
    costs = [price for *_, price in sheets] + [0] * (len(cuts) + len(takes))
    balance: list[dict[int, int]] = [{} for _ in plates]

    def add(plate: tuple[int, int], column: int, value: int) -> None:
        row = balance[plates[plate]]
        row[column] = row.get(column, 0) + value

    for s, (length, width, _) in enumerate(sheets):
        add((length, width), s, 1)
    for c, (plate, one, two) in enumerate(cuts):
        add(plate, len(sheets) + c, -1)
        add(one, len(sheets) + c, 1)
        add(two, len(sheets) + c, 1)
    rows = [(row, 0) for row in balance]
    for t, (plate, _) in enumerate(takes):
        add(plate, len(sheets) + len(cuts) + t, -1)
    for i, (*_, count) in enumerate(blanks):
        rows.append(({len(sheets) + len(cuts) + t: 1 for t, (_, own) in enumerate(takes) if own == i}, count))
    return highs(costs, rows)


@pytest.mark.parametrize("may_turn", [False, True])
def test_sheets_cost_what_highs_finds(may_turn: bool) -> None:
    draw = random.Random(11)
    proven = 0
    for _ in range(20):
        sheets = [(draw.randint(4, 9), draw.randint(4, 8), draw.randint(8, 40)) for _ in range(draw.randint(1, 3))]
        length, width = max((le, w) for le, w, _ in sheets)
        blanks = [
            (draw.randint(1, length), draw.randint(1, width), draw.randint(1, 3)) for _ in range(draw.randint(1, 4))
        ]
        cuts = rb.SheetCuts(
            sheets=[{"length": f"{le * 10} cm", "width": f"{w * 10} cm", "price": f"{p} USD"} for le, w, p in sheets],
            blanks=[
                {"name": f"p{i}", "length": f"{le * 10} cm", "width": f"{w * 10} cm", "count": n, "may_turn": may_turn}
                for i, (le, w, n) in enumerate(blanks)
            ],
            shear=SHEAR,
        )
        best = sheets_by_highs(sheets, blanks, may_turn)
        assert cuts.faults() == ()
        assert cuts.price == f"{best}.00 USD", (sheets, blanks)
        assert float(cuts.lower_bound.split()[0]) <= best
        proven += cuts.is_proven
    assert proven >= 15


def panels() -> rb.SheetCuts:
    return rb.SheetCuts(
        sheets=[
            {"length": "8 ft", "width": "4 ft", "price": "58 USD", "supplier": "sheet yard", "cut": "6 USD"},
            {"length": "6 ft", "width": "2 ft", "price": "0 USD", "count": 1},
        ],
        blanks=[
            {"name": "side", "length": "7 ft", "width": "10 in", "count": 5},
            {"name": "cap", "length": "40 in", "width": "20 in", "may_turn": True, "price": "24 USD"},
        ],
        shear={"longest_cut": "52 in", "throat": "18 in", "cut_time": "3 min"},
        keep={"length": "1 ft", "width": "6 in"},
        labour="80 USD/h",
        units="inches",
    )


def test_tables_of_sheets() -> None:
    cuts = panels()
    assert cuts.faults() == ()
    names = [name for names in cuts.sheets["pieces"] for part in names.split("; ") for name in part.split(" / ")]
    assert sorted([*names, *cuts.bought]) == ["cap", *(f"side {i}" for i in range(1, 6))]
    places, steps = cuts.places, cuts.cuts
    assert (places["length_mm"] * places["width_mm"])[places["name"] != ""].sum() > 0
    assert set(steps["line"]) <= {"along", "across"}
    assert all("comes off" in words for words in steps["words"])
    assert json.loads(json.dumps(cuts.to_dict()))["price"] == cuts.price
    assert "<svg" in cuts.drawing(0).svg
    assert "<svg" in cuts._repr_html_()
    assert "stop at" in str(cuts)
    for row in (-1, 99):
        with pytest.raises(InputError, match="row"):
            cuts.drawing(row)


def test_sheets_keep() -> None:
    cuts = panels()
    assert pickle.loads(pickle.dumps(cuts)) == cuts
    assert cuts == panels()
    again = rb.SheetCuts(
        sheets=[*cuts.remnants, {"length": "8 ft", "width": "4 ft", "price": "58 USD"}],
        blanks=[{"name": "lid", "length": "12 in", "width": "6 in"}],
        shear=SHEAR,
    )
    assert again.price == ("0.00 USD" if cuts.remnants else "58.00 USD")


def test_the_plans_cut_list(build: rb.Evaluation) -> None:
    cut = build.cut_list
    assert cut.sheets is not None
    assert cut.inserts is not None
    assert cut.backing is not None
    assert cut.sheets.faults() == cut.inserts.faults() == cut.backing.faults() == ()
    assert cut.inserts.is_proven
    assert cut.backing.is_proven
    assert pickle.loads(pickle.dumps(cut.sheets)) == cut.sheets
    assert pickle.loads(pickle.dumps(cut)) == cut
    assert set(cut.to_dict()) == {"sheets", "inserts", "backing"}
    assert "order list and cut list" in build._repr_html_()
    assert "sheet yard" in set(build.order["supplier"])
    for words, bars in (("for inserts", cut.inserts), ("behind sheet edges", cut.backing)):
        order = zip(build.order["item"], build.order["unit"], build.order["quantity"], strict=True)
        assert sum(n for item, unit, n in order if words in item and unit == "bars") == bars.bars["times"].sum()


def hard(time_limit: str | None) -> rb.SheetCuts:
    draw = random.Random(3)
    return rb.SheetCuts(
        sheets=[
            {"length": "3 m", "width": "1.5 m", "price": "88 USD"},
            {"length": "2.5 m", "width": "1.25 m", "price": "61 USD"},
        ],
        blanks=[
            {
                "name": f"p{i}",
                "length": f"{draw.randint(150, 1200)} mm",
                "width": f"{draw.randint(150, 900)} mm",
                "count": 2,
            }
            for i in range(40)
        ],
        shear=SHEAR,
        time_limit=time_limit,
    )


def test_a_time_limit_gives_the_best_so_far() -> None:
    start = time.monotonic()
    cuts = hard("0.05 s")
    assert time.monotonic() - start < 20
    assert cuts.faults() == ()
    whole = hard(None)
    assert float(whole.price.split()[0]) <= float(cuts.price.split()[0])


def test_interrupted_it_gives_the_best_so_far() -> None:
    timer = threading.Timer(0.2, os.kill, (os.getpid(), signal.SIGINT))
    timer.start()
    cuts = hard(None)
    timer.join()
    assert cuts.faults() == ()
    assert not cuts.is_proven


def test_other_threads_run() -> None:
    counted = 0
    done = threading.Event()

    def count() -> None:
        nonlocal counted
        while not done.is_set():
            counted += 1
            time.sleep(0.001)

    thread = threading.Thread(target=count)
    thread.start()
    hard(None)
    done.set()
    thread.join()
    assert counted > 20


@pytest.mark.parametrize(
    ("change", "error", "words"),
    [
        ({"sheets": []}, InputError, "sheets: missing"),
        ({"blanks": []}, InputError, "blanks: missing"),
        ({"blanks": [{"name": "a", "length": "9 ft", "width": "1 ft"}]}, InputError, "larger than any stock"),
        ({"blanks": [{"name": "a", "length": 9, "width": "1 ft"}]}, InputError, r"blanks\[0\].length"),
        ({"sheets": [{"length": "8 ft", "width": "4 ft"}]}, InputError, r"sheets\[0\].price: missing"),
        ({"shear": {"longest_cut": "8 ft"}}, InputError, "shear.cut_time: missing"),
        ({"shear": {"longest_cut": "8 ft", "cut_time": "1 min", "kerf": "-1 mm"}}, InputError, "shear.kerf"),
        ({"shear": None}, InputError, "nobody cuts it"),
        ({"time_limit": "3"}, QuantityError, "time_limit"),
        ({"time_limit": "-1 s"}, InputError, "time_limit"),
    ],
)
def test_what_cannot_be(change: dict[str, object], error: type[Exception], words: str) -> None:
    good: dict[str, object] = {
        "sheets": [{"length": "8 ft", "width": "4 ft", "price": "58 USD"}],
        "blanks": [{"name": "a", "length": "3 ft", "width": "1 ft"}],
        "shear": {"longest_cut": "8 ft", "cut_time": "1 min"},
    }
    with pytest.raises(error, match=words):
        rb.SheetCuts(**(good | change))  # type: ignore[arg-type]


def test_bars_that_run_out() -> None:
    with pytest.raises(InputError, match="missing for all pieces"):
        rb.BarCuts(
            bars=[{"length": "6 m", "price": "20 USD", "count": 1}],
            pieces=[{"name": "a", "length": "2.5 m", "count": 3}],
        )
