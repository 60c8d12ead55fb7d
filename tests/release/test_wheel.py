"""The wheel: one for every CPython from 3.11 on, installed where nothing else is, with a bill of its materials."""

import json
import shutil
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest
from commands import OUT, ROOT, run


def _makes_environments(python: str) -> bool:
    """Whether it is there and whole: a name on PATH may only point to what is not installed."""
    if shutil.which(python) is None:
        return False
    return subprocess.run([python, "-c", "import ensurepip, venv"], capture_output=True, check=False).returncode == 0


OTHERS = [name for name in ("python3.12", "python3.13", "python3.14") if _makes_environments(name)]
PYTHONS = [sys.executable, *OTHERS]

# As a user would: a plan from a file, evaluated, printed and drawn.
USE = """
import pathlib, sys, raisedbody as rb
plan = rb.Plan.read(sys.argv[1])
build = plan.evaluate()
build.packet().write("packet.html")
assert pathlib.Path("packet.html").stat().st_size > 100_000
print(rb.__version__, build.verdict, len(build.drawings))
"""


def test_one_wheel_serves_every_python(wheel: Path) -> None:
    name, version, python, abi, platform = wheel.stem.split("-")
    assert (name, python, abi) == ("raisedbody", "cp311", "abi3")
    names = zipfile.ZipFile(wheel).namelist()
    own = sorted(n for n in names if n.startswith("raisedbody/"))
    assert "raisedbody/_core.abi3.so" in own or platform.startswith("win")
    assert {"raisedbody/__init__.py", "raisedbody/_core.pyi", "raisedbody/py.typed"} <= set(own)
    assert all(n.startswith(("raisedbody/", f"raisedbody-{version}.dist-info/")) for n in names), names
    licences = [n for n in names if "/licenses/" in n]
    assert len(licences) == 2


@pytest.mark.parametrize("python", PYTHONS)
def test_it_runs_where_nothing_else_is_installed(wheel: Path, python: str) -> None:
    place = OUT / f"venv-{Path(python).name}"
    shutil.rmtree(place, ignore_errors=True)
    # Outside of the checkout's own environment.
    run(python, "-m", "venv", place)
    clean = place / "bin" / "python"
    run(clean, "-m", "pip", "install", "--quiet", "--disable-pip-version-check", wheel)
    folder = place / "work"
    folder.mkdir()
    example = ROOT / "examples" / "mobile_library.toml"
    told = run(clean, "-I", "-c", USE, example, cwd=folder)
    assert len(told.split()) >= 3, told
    # A plot needs matplotlib, and says so.
    told = run(clean, "-I", "-c", PLOT, example, cwd=folder)
    assert "raisedbody[plot]" in told


PLOT = """
import sys, raisedbody as rb
build = rb.Plan.read(sys.argv[1]).evaluate()
try:
    rb.plot.odds(build.quote.odds(draws=1000))
except ImportError as error:
    print(error)
"""


def test_its_bill_of_materials_names_every_crate(wheel: Path) -> None:
    with zipfile.ZipFile(wheel) as archive:
        (name,) = [n for n in archive.namelist() if "/sboms/" in n]
        bill = json.loads(archive.read(name))
    assert bill["bomFormat"] == "CycloneDX"
    listed = {(own["name"], own["version"]) for own in bill["components"]}
    command = ["cargo", "tree", "--locked", "--features", "python", "--edges", "normal", "--prefix", "none"]
    lines = run(*command, "--format", "{p}").splitlines()
    built = {(own[0], own[1].removeprefix("v")) for own in (line.split() for line in lines) if own[0] != "raisedbody"}
    assert built - listed == set()
    assert len(built) > 60
    assert all(own["purl"].startswith("pkg:cargo/") and own.get("licenses") for own in bill["components"])
