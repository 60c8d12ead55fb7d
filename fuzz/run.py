"""Build the fuzz targets, run each for some seconds, and print what was tried as a table.

    python fuzz/run.py --seconds 60            every target, a minute each
    python fuzz/run.py --seconds 3600 evaluate one target

Inputs that reach something new are kept in target/fuzz/<target> and are where the next run goes on from. An input
that breaks a target is written to target/fuzz/broken/ and the program ends with status 1: mend the fault, and let the
input become a test.

Any stable toolchain will do: libFuzzer is compiled from the crate libfuzzer-sys (a C++ compiler is needed), and LLVM's
counters of edges are switched on by code generation options that stable has. The folder is laid out as cargo-fuzz
expects it, which has not been tried.
"""

import argparse
import os
import re
import shutil
import subprocess
import sys
import tomllib
from pathlib import Path

HERE = Path(__file__).parent
ROOT = HERE.parent
OUT = ROOT / "target" / "fuzz"

# Counters on every edge, and the operands of comparisons, so that libFuzzer sees what an input has reached.
COUNTERS = [
    "-Cpasses=sancov-module",
    "-Cllvm-args=-sanitizer-coverage-level=4",
    "-Cllvm-args=-sanitizer-coverage-inline-8bit-counters",
    "-Cllvm-args=-sanitizer-coverage-pc-table",
    "-Cllvm-args=-sanitizer-coverage-trace-compares",
    "-Cllvm-args=-simplifycfg-branch-fold-threshold=0",
]

# Where inputs start from, beside seeds/<target>.
PLANS = ["examples", "fuzz/seeds/plan"]
SEEDS = {"plan": PLANS, "evaluate": PLANS, "draw": PLANS, "rows": ["src/catalogue/data"], "prices": ["examples"]}

# Several times our longest example; quantities are short.
MOST_BYTES = {"quantities": 200}
# No input may take longer; a hang is a fault.
MOST_SECONDS = 60
# Some twenty times what the greatest input so far has needed.
MOST_MEMORY_MB = 2048


def host() -> str:
    """This machine's target triple: where it is named, build scripts are built without counters."""
    told = subprocess.run(["rustc", "-vV"], check=True, capture_output=True, text=True).stdout
    return re.search(r"^host: (\S+)$", told, re.MULTILINE)[1]


def build() -> Path:
    """The folder with the programs."""
    triple = host()
    command = ["cargo", "build", "--release", "--locked", "--manifest-path", HERE / "Cargo.toml"]
    command += ["--target", triple, "--target-dir", OUT / "build"]
    subprocess.run(command, check=True, env=os.environ | {"RUSTFLAGS": " ".join(COUNTERS)})
    return OUT / "build" / triple / "release"


def run(program: Path, seconds: int, *, afresh: bool = False) -> tuple[dict[str, str], str]:
    """Figures of one target's run, and the input that broke it (nothing, if none did)."""
    name = program.name
    corpus, broken = OUT / ("afresh" if afresh else "") / name, OUT / "broken"
    if afresh:
        shutil.rmtree(corpus, ignore_errors=True)
    corpus.mkdir(parents=True, exist_ok=True)
    broken.mkdir(parents=True, exist_ok=True)
    seeds = [HERE / "seeds" / name, *(ROOT / seed for seed in SEEDS.get(name, []))]
    command = [program, f"-max_total_time={seconds}", f"-timeout={MOST_SECONDS}", f"-rss_limit_mb={MOST_MEMORY_MB}"]
    command += [
        f"-max_len={MOST_BYTES.get(name, 60_000)}",
        "-print_final_stats=1",
        f"-artifact_prefix={broken}/{name}-",
    ]
    command += ["-seed=1"] if afresh else []
    command += [corpus, *(seed for seed in seeds if seed.is_dir())]
    log = OUT / f"{name}.log"
    with log.open("w") as out:
        status = subprocess.run(command, cwd=ROOT, stdout=out, stderr=out, check=False).returncode
    told = log.read_text(errors="replace")
    stat = dict(re.findall(r"^stat::(\w+):\s+(\d+)$", told, re.MULTILINE))
    reached = re.findall(r"cov: (\d+) ft: (\d+) corp: (\d+)", told)
    slowest = stat.get("slowest_unit_time_sec", "-")
    figures = {
        "target": name,
        "executions": stat.get("number_of_executed_units", "-"),
        "a second": stat.get("average_exec_per_sec", "-"),
        "edges": reached[-1][0] if reached else "-",
        "inputs kept": reached[-1][2] if reached else "-",
        "slowest s": slowest,
        "peak MB": stat.get("peak_rss_mb", "-"),
    }
    if status == 0:
        return figures, ""
    # Of a slow input that was well there is a file as well.
    written = re.findall(r"Test unit written to (\S+)", told)
    return figures, written[-1] if written else f"status {status}, see {log}"


def main() -> int:
    """Run the targets asked for; 1 where an input broke one."""
    with (HERE / "Cargo.toml").open("rb") as file:
        targets = [own["name"] for own in tomllib.load(file)["bin"]]
    arguments = argparse.ArgumentParser(description="Run the fuzz targets.")
    arguments.add_argument("--seconds", type=int, default=20, help="of each target (20)")
    arguments.add_argument("--afresh", action="store_true", help="from the seeds alone, the same way each time")
    arguments.add_argument("targets", nargs="*", choices=[*targets, []], help="all of them where none is named")
    asked = arguments.parse_args()
    programs = build()
    rows, faults = [], []
    for name in asked.targets or targets:
        figures, broken = run(programs / name, asked.seconds, afresh=asked.afresh)
        rows.append(figures)
        print(" | ".join(f"{key} {value}" for key, value in figures.items()), flush=True)
        if broken:
            faults.append(f"{name}: {broken}")
    total = sum(int(row["executions"]) for row in rows if row["executions"].isdigit())
    print(f"{total} executions, {len(faults)} faults")
    print(*faults, sep="\n")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
