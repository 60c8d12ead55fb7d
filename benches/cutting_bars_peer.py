"""Arc-flow integer programme solved by HiGHS, for the same jobs, side by side.

Model: Valerio de Carvalho 1999, Ann. Oper. Res. 86:629-659, with a sink for every bar length; pieces by falling length
along a path, and from each node the pieces no longer than the one before only. Jobs are read as
`cargo bench --bench cutting_bars -- FOLDER/` writes them.

Usage: cutting_bars_peer.py FOLDER SECONDS NAME... (with the optional extra `peers`).
"""

import json
import sys
import time
from functools import reduce
from math import gcd
from pathlib import Path
from typing import Any

import highspy
import numpy as np

Job = dict[str, Any]
Kinds = list[tuple[int, int]]


def reduced(job: Job) -> tuple[Kinds, list[tuple[int, int, int | None]]]:
    """Pieces as length with kerf and demand, bars as room, price and count, all over the common divisor."""
    kerf = job["kerf_tenths"]
    kinds: dict[int, int] = {}
    for piece in job["pieces"]:
        length = piece["length_tenths"] + (piece["kerf_tenths"] or kerf)
        kinds[length] = kinds.get(length, 0) + piece["count"]
    unit = reduce(gcd, kinds)
    least = min(p["kerf_tenths"] or kerf for p in job["pieces"])
    bars = []
    for bar in job["stock"]:
        room = bar["length_tenths"] + least
        for trim in (bar["trim_start_tenths"], bar["trim_end_tenths"]):
            room -= trim + kerf if trim else 0
        bars.append((room // unit, bar["price_coins"], bar["count"]))
    return sorted(((length // unit, d) for length, d in kinds.items()), reverse=True), bars


def arcs_of(kinds: Kinds, longest: int) -> tuple[set[tuple[int, int, int]], set[int]]:
    """Arcs reachable with pieces by falling length, none more often than needed."""
    reached = {0}
    arcs: set[tuple[int, int, int]] = set()
    for i, (length, demand) in enumerate(kinds):
        new: set[int] = set()
        for start in reached:
            for times in range(demand):
                tail, head = start + times * length, start + (times + 1) * length
                if head > longest:
                    break
                arcs.add((tail, head, i))
                new.add(head)
        reached |= new
    return arcs, reached


def solve(job: Job, seconds: float) -> tuple[int, float, float, str, float]:
    """Columns, price, bound, status and the time taken, s."""
    kinds, bars = reduced(job)
    begin = time.perf_counter()
    arcs, nodes = arcs_of(kinds, max(b[0] for b in bars))
    order = sorted(nodes)
    number = {v: i for i, v in enumerate(order)}
    entries: list[list[tuple[int, float]]] = []
    costs: list[float] = []
    upper: list[float] = []
    rows = len(order) + 1 + len(kinds)
    for tail, head, kind in sorted(arcs):
        entries.append([(number[tail], -1.0), (number[head], 1.0), (len(order) + 1 + kind, 1.0)])
        costs.append(0.0)
        upper.append(float(kinds[kind][1]))
    for room, price, count in bars:
        for v in order:
            if 0 < v <= room:
                entries.append([(number[v], -1.0), (len(order), 1.0)])
                costs.append(float(price))
                upper.append(float(count or sum(d for _, d in kinds)))
    # The flow out of node 0 is free: its row is left open; so is the sink's.
    low = np.zeros(rows)
    high = np.zeros(rows)
    low[0] = low[len(order)] = -highspy.kHighsInf
    high[0] = high[len(order)] = highspy.kHighsInf
    for kind, (_, demand) in enumerate(kinds):
        low[len(order) + 1 + kind] = demand
        high[len(order) + 1 + kind] = highspy.kHighsInf
    lp = highspy.HighsLp()
    lp.num_col_, lp.num_row_ = len(costs), rows
    lp.col_cost_ = np.array(costs)
    lp.col_lower_, lp.col_upper_ = np.zeros(len(costs)), np.array(upper)
    lp.row_lower_, lp.row_upper_ = low, high
    starts = np.cumsum([0] + [len(e) for e in entries])
    lp.a_matrix_.format_ = highspy.MatrixFormat.kColwise
    lp.a_matrix_.start_ = starts
    lp.a_matrix_.index_ = np.array([r for e in entries for r, _ in e])
    lp.a_matrix_.value_ = np.array([v for e in entries for _, v in e])
    lp.integrality_ = [highspy.HighsVarType.kInteger] * len(costs)
    highs = highspy.Highs()
    highs.setOptionValue("output_flag", False)
    highs.setOptionValue("time_limit", float(seconds))
    highs.setOptionValue("mip_rel_gap", 0.0)
    highs.setOptionValue("mip_abs_gap", 0.999)
    highs.passModel(lp)
    highs.run()
    info = highs.getInfo()
    took = time.perf_counter() - begin
    return (
        len(costs),
        info.objective_function_value,
        info.mip_dual_bound,
        str(highs.getModelStatus()).split(".k")[-1],
        took,
    )


def main() -> None:
    """Solves the jobs named."""
    folder, seconds, names = Path(sys.argv[1]), float(sys.argv[2]), sys.argv[3:]
    for name in names:
        columns, value, bound, status, took = solve(json.loads((folder / f"{name}.json").read_text()), seconds)
        print(f"{name:<24}{columns:>8}{value:>12.0f}{bound:>14.2f}  {status:<12}{took * 1000:>10.1f} ms", flush=True)


if __name__ == "__main__":
    main()
