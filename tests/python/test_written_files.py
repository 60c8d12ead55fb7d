"""No writer of the package replaces a file that is there, unless it is asked to; then it is replaced whole."""

from collections.abc import Callable
from pathlib import Path

import pytest

import raisedbody as rb

WRITERS: dict[str, tuple[str, Callable[[rb.Evaluation, Path, bool], object]]] = {
    "plan": ("plan.toml", lambda build, path, again: build.plan.write(path, again)),
    "measure-up": ("form.csv", lambda build, path, again: build.plan.measure_up("before cut").write(path, again)),
    "page": ("packet.html", lambda build, path, again: build.packet().write(path, again)),
    "SVG": ("left.svg", lambda build, path, again: build.drawing("left").write(path, again)),
    "DXF": ("jig.dxf", lambda build, path, again: build.drawing("jig J1").write(path, again)),
    "list": ("order.csv", lambda build, path, again: build.write_lists(path.parent, again)),
}


@pytest.mark.parametrize("writer", WRITERS)
def test_a_file_that_is_there_is_kept(writer: str, build: rb.Evaluation, tmp_path: Path) -> None:
    name, write = WRITERS[writer]
    path = tmp_path / name
    path.write_text("mine")
    with pytest.raises(FileExistsError, match=name):
        write(build, path, False)
    assert path.read_text() == "mine"
    assert [other.name for other in tmp_path.iterdir()] == [name], "nor is anything else written"
    write(build, path, True)
    assert len(path.read_text(encoding="utf-8")) > 100
    assert not list(tmp_path.glob(".*")), "no neighbour stays"


def test_every_writer_of_the_package_is_among_them() -> None:
    found = {
        f"{name}.{method}"
        for name, kind in vars(rb).items()
        if isinstance(kind, type)
        for method in dir(kind)
        if method.startswith(("write", "save"))
    }
    assert found == {"Plan.write", "MeasureUp.write", "Page.write", "Drawing.write", "Evaluation.write_lists"}
