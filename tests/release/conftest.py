"""What is released, built once for all its tests: the wheel, the source archive, the crate."""

import json
import shutil
import sys
import tomllib
from pathlib import Path
from typing import Any

import pytest
from commands import OUT, ROOT, WHEEL_TARGET, run


def _empty(name: str) -> Path:
    folder = OUT / name
    shutil.rmtree(folder, ignore_errors=True)
    folder.mkdir(parents=True)
    return folder


@pytest.fixture(scope="session")
def metadata() -> dict[str, Any]:
    """Every crate that any feature builds in, as cargo resolves them from Cargo.lock."""
    return json.loads(run("cargo", "metadata", "--format-version", "1", "--all-features", "--locked"))


@pytest.fixture(scope="session")
def wheel() -> Path:
    folder = _empty("wheel")
    run(
        sys.executable, "-m", "maturin", "build", "--release", "--locked", "--target-dir", WHEEL_TARGET, "--out", folder
    )
    (built,) = folder.glob("*.whl")
    return built


@pytest.fixture(scope="session")
def sdist() -> Path:
    folder = _empty("sdist")
    run(sys.executable, "-m", "maturin", "sdist", "--out", folder)
    (built,) = folder.glob("*.tar.gz")
    return built


@pytest.fixture(scope="session")
def crate() -> Path:
    # Packed only: the source archive holds the same files, and is built from.
    run("cargo", "package", "--locked", "--allow-dirty", "--no-verify", "--quiet")
    version = tomllib.loads((ROOT / "Cargo.toml").read_text())["package"]["version"]
    return ROOT / "target" / "package" / f"raisedbody-{version}.crate"
