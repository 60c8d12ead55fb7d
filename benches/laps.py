"""Checks of many laps by EN 1993-1-3 beside a vectorised NumPy version of the same comparisons, in one run.

Both are first shown to agree. Prints medians and ratios; a second part times a single `Lap.check`.
"""

import os
import statistics
import time
from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

import raisedbody as rb

CELLS = 1_000_000
RUNS = 7
Array = NDArray[np.float64]


def inputs(n: int) -> dict[str, Array]:
    """Laps of every kind, most of them inside the rule's range."""
    rng = np.random.default_rng(1)
    d = rng.uniform(3.0, 6.4, n)
    return {
        "outer_mm": rng.uniform(0.6, 2.0, n),
        "inner_mm": rng.uniform(0.6, 3.0, n),
        "outer_fu_mpa": rng.uniform(270, 500, n),
        "inner_fu_mpa": rng.uniform(270, 500, n),
        "diameter_mm": d,
        "hole_mm": d + 0.1,
        "head_mm": 2.1 * d,
        "rivet_shear_n": rng.uniform(1000, 9000, n),
        "rivet_tension_n": rng.uniform(1000, 9000, n),
        "pitch_mm": rng.uniform(15, 150, n),
        "edge_mm": rng.uniform(8, 25, n),
        "shear_n": rng.uniform(0, 3000, n),
        "tension_n": rng.uniform(0, 900, n),
    }


def by_numpy(
    outer_mm: Array,
    inner_mm: Array,
    outer_fu_mpa: Array,
    inner_fu_mpa: Array,
    diameter_mm: Array,
    hole_mm: Array,
    head_mm: Array,
    rivet_shear_n: Array,
    rivet_tension_n: Array,
    pitch_mm: Array,
    edge_mm: Array,
    shear_n: Array,
    tension_n: Array,
) -> tuple[Array, NDArray[np.uint8], NDArray[np.uint8]]:
    """Utilisation, governing check and verdict by whole-array operations, temporaries reused where it is easy."""
    gamma = 1.25
    t = np.minimum(outer_mm, inner_mm)
    t1 = np.maximum(outer_mm, inner_mm)
    head_strength = outer_fu_mpa * outer_mm
    strength = np.minimum(head_strength, inner_fu_mpa * inner_mm)
    alpha = np.minimum(3.6 * np.sqrt(t / diameter_mm), 2.1)
    alpha += np.clip((t1 / t - 1.0) / 1.5, 0.0, 1.0) * (2.1 - alpha)
    bearing = np.minimum(alpha * diameter_mm, edge_mm / 1.2) * strength / gamma
    net = np.maximum(pitch_mm - hole_mm, 0.0) * strength / gamma
    through = 0.5 * head_mm * head_strength / gamma
    shear = rivet_shear_n / gamma
    tension = rivet_tension_n / gamma
    sheet = np.minimum(bearing, net)
    used = np.stack(
        [
            shear_n / bearing,
            shear_n / net,
            shear_n / shear,
            tension_n / tension,
            tension_n / through,
            tension_n / through + shear_n / sheet,
        ]
    )
    conditions = np.stack([1.2 * sheet / shear, through / tension])
    limits = np.stack(
        [
            hole_mm / (diameter_mm + (0.1 + 1e-9)),
            2.6 / diameter_mm,
            diameter_mm / 6.4,
            1.5 * diameter_mm / edge_mm,
            3.0 * diameter_mm / pitch_mm,
            0.45 / t,
            t1 / 4.0,
            np.maximum(outer_fu_mpa, inner_fu_mpa) / 550.0,
        ]
    )
    most = used.max(axis=0)
    beyond = limits.max(axis=0) > 1.0
    fails = most > 1.0
    unmet = conditions.max(axis=0) > 1.0
    verdict = np.select([beyond, fails, unmet], [2, 3, 1], 0).astype(np.uint8)
    governing = np.select(
        [beyond, fails, unmet], [8 + limits.argmax(axis=0), used.argmax(axis=0), 6 + conditions.argmax(axis=0)], 0
    )
    governing = np.where(verdict == 0, used.argmax(axis=0), governing).astype(np.uint8)
    return np.where(beyond, np.nan, most), governing, verdict


def seconds(call: Callable[[], object]) -> float:
    """Median time of a call after one to warm up."""
    call()
    times = []
    for _ in range(RUNS):
        start = time.perf_counter()
        call()
        times.append(time.perf_counter() - start)
    return statistics.median(times)


def main() -> None:
    """Compare and print."""
    laps = inputs(CELLS)
    ours = rb.check_laps(**laps)
    utilisation, governing, verdict = by_numpy(**laps)
    assert np.allclose(ours.utilisation, utilisation, rtol=1e-12, equal_nan=True)
    assert (ours.verdict_code == verdict).all()
    assert (ours.governing_code == governing).mean() > 0.999_999, "ties may fall either way"

    threads = os.environ.get("RAYON_NUM_THREADS", str(os.cpu_count()))
    numpy_s = seconds(lambda: by_numpy(**laps))
    ours_s = seconds(lambda: rb.check_laps(**laps))
    copy_s = seconds(lambda: [a.copy() for a in laps.values()])
    print(f"{CELLS:,} laps, {threads} thread(s): {ours_s * 1e3:.1f} ms, NumPy {numpy_s * 1e3:.1f} ms")
    print(f"  NumPy / ours {numpy_s / ours_s:.1f}, ours / copy of the inputs {ours_s / copy_s:.2f}")

    grid = {name: column[:1] for name, column in laps.items()}
    grid["pitch_mm"] = np.linspace(15, 150, 1000)[:, None]
    grid["outer_mm"] = np.linspace(0.6, 2.0, 1000)
    grid_s = seconds(lambda: rb.check_laps(**grid))
    print(f"a grid of 1000 x 1000 by broadcasting, {threads} thread(s): {grid_s * 1e3:.1f} ms")

    sheet = rb.Sheet(gauge=18, coating="A40", grade="SS33")
    rivet = rb.BlindRivet("6.4 mm", product="ISO 15976")
    lap = rb.Lap(outer=sheet, inner=sheet, rivet=rivet, pitch="4 1/4 in", edge="5/8 in")
    count = 20_000

    def many() -> None:
        for _ in range(count):
            lap.check(shear="900 N", tension="150 N")

    print(f"one Lap.check: {seconds(many) / count * 1e6:.2f} us")


if __name__ == "__main__":
    main()
