"""Time many quotes from Python: one call beside a plain loop over the same library, and the memory of a long stream.

Each figure comes from a process of its own, so that one does not warm the other; the peak is that of the whole process.
"""

import json
import os
import subprocess
import sys

JOBS = 10_000
STREAM = 1_000_000
FRAME = 10_000

SETUP = """
import random
import polars as pl
import raisedbody as rb
plan = rb.Plan.read("examples/mobile_library.toml")
draw = random.Random(10)
def frame(n):
    return pl.DataFrame({
        "raise.height": [f"{draw.randrange(320, 421)} mm" for _ in range(n)],
        "skin.gauge": [draw.choice([16, 18, 20]) for _ in range(n)],
        "skin.coating": [draw.choice(["A40", "G90", "G60"]) for _ in range(n)],
        "fastening.pitch": [f"{draw.randrange(76, 121)} mm" for _ in range(n)],
        "prices.sheet": [f"{draw.randrange(180, 321) / 100} USD/kg" for _ in range(n)],
        "prices.labour": [f"{draw.randrange(60, 121)} USD/h" for _ in range(n)],
    })
"""

BATCH = f"""
jobs = frame({JOBS})
start = time.perf_counter()
quotes = rb.quote_batch(jobs, plan, progress=False)
count = quotes.height
"""

# What a user would write without the batch: change the plan, evaluate it, keep a few numbers; no stock, as in a batch.
LOOP = """
bare = plan.without("cutting")
jobs = frame(200)
start = time.perf_counter()
rows = []
for row in jobs.iter_rows(named=True):
    changes = {}
    for path, value in row.items():
        section, entry = path.split(".")
        changes.setdefault(section, {})[entry] = value
    build = bare.replace(changes).evaluate()
    rows.append((build.price, build.labour_h, build.rivets, build.verdict))
count = len(rows)
"""

LONG = f"""
start = time.perf_counter()
count = 0
for quotes in rb.quote_batch((frame({FRAME}) for _ in range({{frames}})), plan, progress=False):
    count += quotes.height
"""


def run(code: str, threads: int) -> dict[str, float]:
    """Run a piece in a process of its own with this many threads; rows a second and its peak in MB."""
    whole = f"import json, resource, time\n{SETUP}\n{code}\n" + (
        "took = time.perf_counter() - start\n"
        "peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024\n"
        "print(json.dumps({'rate': count / took, 'count': count, 'took': took, 'peak': peak}))\n"
    )
    env = os.environ | {"RAYON_NUM_THREADS": str(threads)}
    out = subprocess.run([sys.executable, "-c", whole], env=env, check=True, capture_output=True, text=True).stdout
    return json.loads(out)


def main() -> None:
    """Print each figure."""
    one, two, loop = run(BATCH, 1), run(BATCH, 2), run(LOOP, 1)
    gain, times = two["rate"] / one["rate"], two["rate"] / loop["rate"]
    print(f"{JOBS} quotes on one thread: {one['rate']:.0f} a second; on two {two['rate']:.0f}, {gain:.2f} times")
    print(f"a loop of replace and evaluate: {loop['rate']:.1f} a second; the batch on two threads {times:.0f} times")
    short, long = run(LONG.replace("{frames}", "5"), 2), run(LONG.replace("{frames}", str(STREAM // FRAME)), 2)
    print(
        f"a stream of {short['count']:.0f} rows peaks at {short['peak']:.0f} MB, one of {long['count']:.0f} rows at",
        end=" ",
    )
    print(f"{long['peak']:.0f} MB, in {long['took']:.0f} s, {long['rate']:.0f} rows a second")


if __name__ == "__main__":
    main()
