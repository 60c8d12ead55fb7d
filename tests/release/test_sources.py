"""The source archive and the crate: they build from what is in them, and hold nothing else."""

import os
import re
import sys
import tarfile
from pathlib import Path

from commands import OUT, ROOT, WHEEL_TARGET, run

# What is developed with, not shipped.
NOT_SHIPPED = ("tests/", "notebooks/", "docs/", "benches/", "fuzz/", ".ci/", "Makefile")


def _names(archive: Path) -> list[str]:
    with tarfile.open(archive) as tar:
        return [name.split("/", 1)[1] for name in tar.getnames() if "/" in name]


def test_the_crate_holds_what_it_is_built_from(crate: Path) -> None:
    names = _names(crate)
    assert {"Cargo.toml", "Cargo.lock", "LICENSE-MIT", "LICENSE-APACHE", "README.md", "src/lib.rs"} <= set(names)
    assert [name for name in names if name.startswith(NOT_SHIPPED)] == []
    # crates.io takes ten megabytes.
    assert crate.stat().st_size < 5_000_000


def test_the_source_archive_builds_and_installs(sdist: Path) -> None:
    names = _names(sdist)
    assert {"Cargo.toml", "Cargo.lock", "pyproject.toml", "PKG-INFO", "python/raisedbody/__init__.py"} <= set(names)
    assert [name for name in names if name.startswith(NOT_SHIPPED)] == []
    place = OUT / "venv-sdist"
    run(sys.executable, "-m", "venv", "--clear", place)
    clean = place / "bin" / "python"
    run(clean, "-m", "pip", "install", "--quiet", "--disable-pip-version-check", "maturin>=1.16,<2")
    # Without optimising: the same sources and a shorter wait.
    run(
        *(clean, "-m", "pip", "install", "--quiet", "--disable-pip-version-check", "--no-build-isolation", sdist),
        PATH=f"{place / 'bin'}{os.pathsep}{os.environ['PATH']}",
        CARGO_TARGET_DIR=str(WHEEL_TARGET),
        MATURIN_PEP517_ARGS="--profile dev",
    )
    told = run(
        *(clean, "-I", "-c", "import sys, raisedbody as rb; print(rb.Plan.read(sys.argv[1]).evaluate().name)"),
        ROOT / "examples" / "workshop_bus.toml",
        cwd=place,
    )
    assert told.strip() == "Workshop bus"


def test_the_changelog_and_the_version_agree(sdist: Path) -> None:
    version = sdist.name.removesuffix(".tar.gz").split("-")[1]
    changes = (ROOT / "CHANGELOG.md").read_text()
    headings = re.findall(r"^## \[(.+)\]", changes, re.MULTILINE)
    # Until the first release there is only what is not released.
    assert headings[0] == "Unreleased"
    assert headings[1:] == [] or version in headings
