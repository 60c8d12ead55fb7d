"""How much of the Rust sources the Rust tests run, and which public functions none of them does.

    python tests/coverage.py            measure (needs `cargo install cargo-tarpaulin`), print, fail on such functions
    python tests/coverage.py lcov.info  the same from a file that was measured before

Lines are counted by LLVM's instrumentation. src/python/ is left out: the Python tests run it, in another process.
"""

import os
import re
import subprocess
import sys
from collections import defaultdict
from pathlib import Path

ROOT = Path(__file__).parents[1]
OUT = ROOT / "target" / "coverage"
FUNCTION = re.compile(r"^( *)pub (?:const )?fn (\w+)")

Hits = dict[str, dict[int, int]]


def measure() -> Path:
    """Run the tests under instrumentation."""
    OUT.mkdir(parents=True, exist_ok=True)
    command = ["cargo", "tarpaulin", "--engine", "llvm", "--skip-clean", "--locked", "--test", "suite", "--lib"]
    command += ["--target-dir", OUT / "build", "--out", "lcov", "--output-dir", OUT, "--exclude-files", "src/python/*"]
    # Where the crate was packed, its copies.
    command += ["--exclude-files", "target/*"]
    # Counting makes the tests many times slower; what is run shows in a few random cases of each law as well.
    command += ["--timeout", "7200"]
    subprocess.run(command, cwd=ROOT, check=True, env=os.environ | {"PROPTEST_CASES": "8"})
    return OUT / "lcov.info"


def read(lcov: Path) -> Hits:
    """Times that each line was run, by file."""
    hits: Hits = defaultdict(dict)
    name = ""
    for line in lcov.read_text().splitlines():
        key, _, rest = line.partition(":")
        if key == "SF":
            name = str(Path(rest).resolve().relative_to(ROOT)) if Path(rest).is_absolute() else rest
        elif key == "DA":
            number, count = (int(own) for own in rest.split(",")[:2])
            hits[name][number] = max(count, hits[name].get(number, 0))
    return {name: own for name, own in hits.items() if name.startswith("src/") and not name.startswith("src/python/")}


def untested(name: str, lines: dict[int, int]) -> list[str]:
    """Public functions of a file of whose lines none was run."""
    text = (ROOT / name).read_text().splitlines()
    found = []
    for start, line in enumerate(text, 1):
        if match := FUNCTION.match(line):
            indent, function = match.groups()
            # Formatted sources: a function ends at the first brace that stands where it began.
            closing = (i for i in range(start, len(text) + 1) if text[i - 1].startswith(f"{indent}}}"))
            end = start if line.rstrip().endswith("}") else next(closing, len(text))
            own = [count for number, count in lines.items() if start <= number <= end]
            if own and not any(own):
                found.append(f"{name}:{start} {function}")
    return found


def main() -> int:
    """Print the table; 1 where a public function is not tested."""
    hits = read(Path(sys.argv[1]) if len(sys.argv) > 1 else measure())
    folders: dict[str, list[int]] = defaultdict(list)
    for name, lines in hits.items():
        folders["/".join(name.split("/")[:2])] += lines.values()
    folders["all"] = [count for lines in hits.values() for count in lines.values()]
    for folder, counts in sorted(folders.items()):
        run = sum(count > 0 for count in counts)
        print(f"{folder:24} {run:6} of {len(counts):6} lines, {100 * run / len(counts):5.1f} %")
    missing = [own for name, lines in sorted(hits.items()) for own in untested(name, lines)]
    print(f"{len(missing)} public functions without a test", *missing, sep="\n")
    return 1 if missing else 0


if __name__ == "__main__":
    sys.exit(main())
