"""Dependencies: licences on the list of deny.toml, all from crates.io, none newer than the Rust version of Cargo.toml.

The list of licences is the project's own; their names are those of the SPDX licence list.
"""

import tomllib
from importlib import metadata as installed
from typing import Any

import pytest
from commands import ROOT
from license_expression import AND, OR, get_spdx_licensing
from packaging.version import Version

ALLOWED = set(tomllib.loads((ROOT / "deny.toml").read_text())["licenses"]["allow"])
SPDX = get_spdx_licensing()


def _fits(expression: Any) -> bool:
    """Whether some choice among its alternatives is all on the list."""
    match expression:
        case AND():
            return all(_fits(own) for own in expression.args)
        case OR():
            return any(_fits(own) for own in expression.args)
        case _:
            return str(expression) in ALLOWED


def _allowed(licence: str) -> bool:
    # Older crates part alternatives with a stroke.
    return _fits(SPDX.parse(licence.replace("/", " OR "), validate=True))


@pytest.mark.parametrize(
    ("licence", "fits"),
    [
        ("MIT OR Apache-2.0", True),
        ("MIT/Apache-2.0", True),
        ("(MIT OR Apache-2.0) AND Unicode-3.0", True),
        ("Apache-2.0 WITH LLVM-exception", True),
        ("GPL-3.0-only", False),
        ("MIT AND GPL-3.0-only", False),
        ("MIT OR GPL-3.0-only", True),
        ("GPL-2.0-only WITH Classpath-exception-2.0", False),
    ],
)
def test_expressions_are_read_as_spdx_means_them(licence: str, fits: bool) -> None:
    assert _allowed(licence) is fits


def test_every_crate_has_an_allowed_licence(metadata: dict[str, Any]) -> None:
    told = {own["name"]: own["license"] for own in metadata["packages"]}
    refused = {name: licence for name, licence in told.items() if not (licence and _allowed(licence))}
    assert refused == {}


def test_every_crate_comes_from_crates_io(metadata: dict[str, Any]) -> None:
    sources = {own["source"] for own in metadata["packages"]}
    assert sources == {None, "registry+https://github.com/rust-lang/crates.io-index"}
    assert [own["name"] for own in metadata["packages"] if own["source"] is None] == ["raisedbody"]


def test_no_crate_needs_a_newer_compiler_than_is_promised(metadata: dict[str, Any]) -> None:
    promised = next(Version(own["rust_version"]) for own in metadata["packages"] if own["name"] == "raisedbody")
    newer = {
        own["name"]: own["rust_version"]
        for own in metadata["packages"]
        if Version(own["rust_version"] or "1") > promised
    }
    assert newer == {}
    # What its texts promise is the same.
    assert f"Rust toolchain ({promised} or newer)" in (ROOT / "README.md").read_text()


def test_what_the_package_installs_has_an_allowed_licence() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text())["project"]
    names = [need.split(">")[0] for need in project["dependencies"]]
    assert names == ["narwhals", "numpy"]
    for name in names:
        told = installed.metadata(name)
        licence = told["License-Expression"] or told["License"]
        assert _allowed(licence), f"{name}: {licence}"
