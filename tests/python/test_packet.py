"""The job packet and the lists as a user works with them."""

import csv
import io
import pickle
from pathlib import Path

import pytest

import raisedbody as rb


def test_packet_is_one_page(build: rb.Evaluation, tmp_path: Path) -> None:
    page = build.packet()
    assert isinstance(page, rb.Page)
    assert page.name == "Travelling library, job packet"
    assert repr(page).startswith("<Page 'Travelling library, job packet': ")
    assert str(page) == page.html
    assert page.html.startswith("<!DOCTYPE html>")
    page.write(tmp_path / "packet.html")
    assert (tmp_path / "packet.html").read_text(encoding="utf-8") == page.html


def test_pages_compare_and_pickle(build: rb.Evaluation) -> None:
    page = build.packet()
    assert page == build.packet() == pickle.loads(pickle.dumps(page)) == rb.Page(page.name, page.html)
    other = build.plan.replace(name="Another").evaluate().packet()
    assert page != other
    assert other.name == "Another, job packet"


def test_a_page_that_is_there_is_kept(build: rb.Evaluation, tmp_path: Path) -> None:
    path = tmp_path / "packet.html"
    path.write_text("mine")
    with pytest.raises(FileExistsError):
        build.packet().write(path)
    assert path.read_text() == "mine"
    build.packet().write(path, overwrite=True)
    assert path.read_text(encoding="utf-8") == build.packet().html


def test_a_page_is_no_picture(build: rb.Evaluation, tmp_path: Path) -> None:
    with pytest.raises(rb.InputError, match=r"a page is HTML: give it \.html") as caught:
        build.packet().write(tmp_path / "packet.pdf")
    assert caught.value.field == "path"
    assert list(tmp_path.iterdir()) == []


def test_in_a_notebook_a_page_stands_in_a_frame() -> None:
    shown = rb.Page("a <name>", '<p>"words" & <script>alert(1)</script></p>')._repr_html_()
    assert shown.startswith('<iframe title="a &lt;name&gt;" srcdoc="&lt;p&gt;')
    assert "<script" not in shown
    assert 'sandbox=""' in shown


def rows(text: str) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(text, newline="")))


def test_lists_hold_what_the_tables_hold(build: rb.Evaluation) -> None:
    order = rows(build.csv("order"))
    assert [row["order"] for row in order] == list(build.order["item"])
    assert [float(row["quantity"]) for row in order] == pytest.approx(build.order["quantity"].tolist(), rel=5e-5)
    blanks = rows(build.csv("blanks"))
    assert [float(row["length_mm"]) for row in blanks] == build.blanks["length_mm"].tolist()
    assert sum(int(row["blanks"]) for row in blanks) == build.sheets_count
    assert [row["hang"] for row in rows(build.csv("hanging order"))] == [str(i + 1) for i in range(build.sheets_count)]
    assert len(rows(build.csv("checks"))) == len(build.checks["name"])


def test_every_list_has_a_name(build: rb.Evaluation) -> None:
    assert {"order", "inserts", "ledger", "gate", "drilling", "jigs", "quote", "hours", "checks"} <= set(build.lists)
    assert all(build.csv(name).count("\r\n") >= 1 for name in build.lists)
    with pytest.raises(rb.InputError, match='did you mean "blanks"') as caught:
        build.csv("blank")
    assert caught.value.field == "list"
    assert caught.value.value == "blank"


def test_no_cell_runs_as_a_formula(plan: rb.Plan) -> None:
    name = '=HYPERLINK("https://example.org","x")'
    build = plan.replace(fit_out=[{"name": name, "mass": "10 kg", "x": "4 m", "z": "1 m"}]).evaluate()
    masses = rows(build.csv("masses"))
    assert masses[-1]["mass"] == f"'{name}"
    # A number is none: to the right of the middle it is negative.
    assert min(float(row["left of the middle, mm"]) for row in masses) < 0


def test_lists_are_written_all_or_none(build: rb.Evaluation, tmp_path: Path) -> None:
    folder = tmp_path / "lists"
    build.write_lists(folder)
    assert {path.stem for path in folder.iterdir()} == set(build.lists)
    assert (folder / "order.csv").read_bytes() == build.csv("order").encode()
    (folder / "order.csv").write_text("mine")
    (folder / "gate.csv").unlink()
    with pytest.raises(FileExistsError):
        build.write_lists(folder)
    assert not (folder / "gate.csv").exists()
    assert (folder / "order.csv").read_text() == "mine"
    build.write_lists(folder, overwrite=True)
    assert (folder / "order.csv").read_bytes() == build.csv("order").encode()
