"""One bow of thirty-odd freedoms here beside two general frame packages, in one run: same answers, ratio of times."""

import statistics
import sys
import time
from collections.abc import Callable
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1] / "tests" / "python"))

from bows import bow, by_anastruct, by_pynite, ours


def seconds(call: Callable[[], object], runs: int) -> float:
    """Median time of a call after one to warm up."""
    call()
    times = []
    for _ in range(runs):
        start = time.perf_counter()
        call()
        times.append(time.perf_counter() - start)
    return statistics.median(times)


def main() -> None:
    """Compare and print. Building the model counts for all three."""
    b = bow(3)
    sway = ours(b).nodes["x_mm"][b.corner]
    assert abs(by_pynite(b).nodes[f"N{b.corner}"].DX["Combo 1"] / sway - 1) < 1e-6
    assert abs(by_anastruct(b).get_node_displacements(b.corner + 1)["ux"] / sway - 1) < 1e-6
    own = seconds(lambda: ours(b), 2000)
    for name, call in (("PyNiteFEA", lambda: by_pynite(b)), ("anastruct", lambda: by_anastruct(b))):
        other = seconds(call, 20)
        print(f"one bow from Python: {own * 1e6:.0f} us, {name} {other * 1e3:.1f} ms ({other / own:.0f} times)")


if __name__ == "__main__":
    main()
