"""Running commands as a person who releases does."""

import os
import subprocess
from pathlib import Path

ROOT = Path(__file__).parents[2]
OUT = ROOT / "target" / "release-check"
# The wheel's own build, and what `make develop` has built before.
WHEEL_TARGET = ROOT / "target" / "wheel"


def run(*command: str | Path, cwd: Path = ROOT, **environment: str) -> str:
    """What a command prints; its words fail the test where it fails."""
    result = subprocess.run(
        [str(own) for own in command],
        cwd=cwd,
        env=os.environ | environment,
        capture_output=True,
        text=True,
        check=False,
    )
    assert result.returncode == 0, f"{command}:\n{result.stdout[-4000:]}\n{result.stderr[-4000:]}"
    return result.stdout
