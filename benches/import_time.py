"""How long `import raisedbody` takes, beyond starting Python itself."""

import statistics
import subprocess
import sys
import time

RUNS = 41


def run_ms(code: str) -> float:
    """Time of one Python process that runs `code`, ms."""
    start = time.perf_counter()
    subprocess.run([sys.executable, "-c", code], check=True)
    return (time.perf_counter() - start) * 1e3


def main() -> None:
    """Run both programs in turn, so that a slow moment of the machine meets both, and print the medians."""
    codes = ("pass", "import raisedbody")
    for code in codes:
        run_ms(code)  # fills the file cache and the bytecode cache
    rounds = [[run_ms(code) for code in codes] for _ in range(RUNS)]
    bare_ms, with_import_ms = (statistics.median(column) for column in zip(*rounds, strict=True))
    print(f"python -c 'pass'              {bare_ms:7.1f} ms")
    print(f"python -c 'import raisedbody' {with_import_ms:7.1f} ms")
    print(f"import alone                  {with_import_ms - bare_ms:7.1f} ms  (medians of {RUNS} runs in turn)")


if __name__ == "__main__":
    main()
