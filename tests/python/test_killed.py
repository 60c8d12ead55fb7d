"""A process that is killed while it writes leaves the old file or the new one, whole.

A writer writes a job packet and a plan over and over, in a folder, and is killed at a random moment, 200 times.
"""

import os
import random
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path

import pytest

import raisedbody as rb

KILLS = 200

# Pages and plans of several sizes, so that one that is cut off, or mixed of two, is none of them. Packets of some MB:
# most of the time goes into writing.
WRITER = """
import sys
from pathlib import Path
import raisedbody as rb

folder = Path(sys.argv[1])
pages = [rb.Page("packet", (folder / f"source-{i}.html").read_text(encoding="utf-8")) for i in range(3)]
plans = [rb.Plan.read(folder / f"source-{i}.toml") for i in range(3)]
print("ready", flush=True)
while True:
    for page, plan in zip(pages, plans):
        page.write(folder / "packet.html", overwrite=True)
        plan.write(folder / "plan.toml", overwrite=True)
"""


@pytest.fixture
def folder(plan: rb.Plan, tmp_path: Path) -> Path:
    """Three job packets and three plans to write in turn, and the first of them written."""
    packet = plan.evaluate().packet().html
    text = plan.to_text()
    for i in range(3):
        # A fleet's packets in one file.
        page = rb.Page("packet", packet * (4 + i))
        page.write(tmp_path / f"source-{i}.html")
        # What a planner noted.
        notes = "".join(f"# note {i}, line {line}\n" for line in range(4000 * (i + 1)))
        (tmp_path / f"source-{i}.toml").write_text(notes + text.replace("Travelling library", f"Bus {i}"))
    (tmp_path / "packet.html").write_bytes((tmp_path / "source-0.html").read_bytes())
    (tmp_path / "plan.toml").write_bytes((tmp_path / "source-0.toml").read_bytes())
    return tmp_path


def neighbours(folder: Path) -> Iterator[Path]:
    known = {"packet.html", "plan.toml", *(f"source-{i}.{ending}" for i in range(3) for ending in ("html", "toml"))}
    return (path for path in folder.iterdir() if path.name not in known)


@pytest.mark.skipif(sys.platform == "win32", reason="kills by SIGKILL")
def test_a_killed_process_leaves_the_old_file_or_the_new_one(folder: Path) -> None:
    chance = random.Random(12)
    whole = {
        ending: {(folder / f"source-{i}.{ending}").read_bytes(): i for i in range(3)} for ending in ("html", "toml")
    }
    # How long the writer takes for a round, on a machine as busy as this one is now.
    start = time.monotonic()
    for i in range(3):
        for ending in ("html", "toml"):
            (folder / f"timed-{i}.{ending}").write_bytes((folder / f"source-{i}.{ending}").read_bytes())
            (folder / f"timed-{i}.{ending}").unlink()
    longest = 0.05 + 3 * (time.monotonic() - start)
    hit = 0
    seen: dict[str, set[int]] = {"html": set(), "toml": set()}
    for _ in range(KILLS):
        with subprocess.Popen([sys.executable, "-c", WRITER, os.fspath(folder)], stdout=subprocess.PIPE) as writer:
            assert writer.stdout is not None
            assert writer.stdout.readline() == b"ready\n"
            time.sleep(chance.uniform(0, longest))
            writer.send_signal(signal.SIGKILL)
        assert writer.returncode == -signal.SIGKILL
        for ending, name in (("html", "packet.html"), ("toml", "plan.toml")):
            left = (folder / name).read_bytes()
            assert left in whole[ending], f"{name} is neither the old one nor the new one: {len(left)} bytes"
            seen[ending].add(whole[ending][left])
        stray = list(neighbours(folder))
        hit += bool(stray)
        for path in stray:
            assert (path.name[0], path.suffix) == (".", ".part"), "nobody takes it for a plan or a page"
            path.unlink()
    print(f"{hit} of {KILLS} kills within a write")
    assert hit >= KILLS // 10, "the kills are to hit writes"
    assert all(len(found) > 1 for found in seen.values()), "the writer is to have written"
    assert rb.Plan.read(folder / "plan.toml").name.startswith("Bus ")
