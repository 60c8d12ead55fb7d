"""Drawings, DXF and templates in full size, as a user gets them; checked with independent readers of DXF and PDF.

DXF is read back with ezdxf (MIT), pages are printed by Chromium and measured with pdfplumber (MIT).
"""

import io
import pickle
import re
import xml.etree.ElementTree as ET

import ezdxf
import pdfplumber
import pytest

import raisedbody as rb
from raisedbody.exceptions import InputError, PlanFileExistsError

MM = 25.4 / 72  # a point of a PDF


@pytest.fixture(scope="module", params=["mobile_library", "workshop_bus"])
def build(request):
    return rb.Plan.read(f"examples/{request.param}.toml").evaluate()


@pytest.fixture(scope="module")
def library():
    return rb.Plan.read("examples/mobile_library.toml").evaluate()


def test_every_drawing_has_a_name_and_shows_itself(build):
    assert len(set(build.drawings)) == len(build.drawings) > 40
    for name in build.drawings:
        drawing = build.drawing(name)
        assert drawing.name == name
        assert drawing._repr_svg_() == drawing.svg == str(drawing)
        assert ET.fromstring(drawing.svg).tag == "{http://www.w3.org/2000/svg}svg"
        assert (drawing.dxf is not None) == name.startswith(("blank ", "jig "))
        assert pickle.loads(pickle.dumps(drawing)) == drawing
    assert repr(build.drawing("left")) == "<Drawing 'left'>"


def test_an_unknown_drawing_is_refused(build):
    with pytest.raises(InputError, match="left") as refused:
        build.drawing("leftt")
    assert refused.value.value == "leftt"


def test_a_drawing_is_written_whole_by_its_ending(tmp_path, library):
    jig = library.drawing("jig J1")
    jig.write(tmp_path / "J1.svg")
    jig.write(tmp_path / "J1.dxf")
    assert (tmp_path / "J1.svg").read_text(encoding="utf-8") == jig.svg
    assert (tmp_path / "J1.dxf").read_bytes().decode() == jig.dxf
    with pytest.raises(PlanFileExistsError):
        jig.write(tmp_path / "J1.svg")
    jig.write(tmp_path / "J1.svg", overwrite=True)
    with pytest.raises(InputError, match=r"\.svg or \.dxf"):
        jig.write(tmp_path / "J1.png")
    with pytest.raises(InputError, match="nothing is cut"):
        library.drawing("left").write(tmp_path / "left.dxf")
    assert sorted(p.name for p in tmp_path.iterdir()) == ["J1.dxf", "J1.svg"]


def read_dxf(drawing):
    # Lines of the file end as Windows has them; the reader takes text with its own line ends.
    return ezdxf.read(io.StringIO(drawing.dxf, newline=None))


@pytest.fixture(scope="module")
def cut(build, tmp_path_factory):
    """Every DXF file of an example, read back by another's reader: name, document."""
    folder = tmp_path_factory.mktemp("dxf")
    documents = {}
    for i, name in enumerate(n for n in build.drawings if n.startswith(("blank ", "jig "))):
        build.drawing(name).write(folder / f"{i}.dxf")
        documents[name] = ezdxf.readfile(folder / f"{i}.dxf")
    return documents


def test_dxf_is_sound_and_in_millimetres(cut):
    for name, document in cut.items():
        assert not document.audit().errors, name
        assert document.units == ezdxf.units.MM
        assert document.header["$MEASUREMENT"] == 1
        layers = {entity.dxf.layer for entity in document.modelspace()}
        assert layers <= {"OUTLINE", "HOLES", "BENDS", "TEXT"}, name
        told = document.modelspace().query('TEXT[layer=="TEXT"]')
        assert [text.dxf.text.split(", seen from outside")[0] for text in told] == [name.split(" ", 1)[1]]
        outlines = document.modelspace().query('LWPOLYLINE[layer=="OUTLINE"]')
        assert [line.closed for line in outlines] == [True], name


def test_dxf_has_the_size_of_the_sheets(build, cut):
    rows = [*build.sheets.rows()]
    assert rows
    for row in rows:
        outline = cut[f"blank {row['id']}"].modelspace().query("LWPOLYLINE")[0]
        points = [point[:2] for point in outline.get_points()]
        wide = max(x for x, _ in points) - min(x for x, _ in points)
        high = max(y for _, y in points) - min(y for _, y in points)
        assert (wide, high) == pytest.approx((row["length_mm"], row["height_mm"]), abs=1e-6)


def test_dxf_holes_are_those_of_the_drawing(build, cut):
    for name, document in cut.items():
        circles = document.modelspace().query('CIRCLE[layer=="HOLES"]')
        svg = ET.fromstring(build.drawing(name).svg)
        drawn = [c for c in svg.iter("{http://www.w3.org/2000/svg}circle") if c.get("class") == "drill"]
        assert len(circles) == len(drawn) > 0, name
        least = min(float(c.get("cx")) for c in drawn)
        across = sorted(float(c.get("cx")) - least for c in drawn)
        least = min(c.dxf.center.x for c in circles)
        assert across == pytest.approx(sorted(c.dxf.center.x - least for c in circles), abs=0.11), name
        assert {round(2 * float(c.get("r")), 1) for c in drawn} == {round(2 * c.dxf.radius, 1) for c in circles}


def test_dxf_bends_are_the_marks_taped_from_the_good_edge(library):
    marks = [*library.end_caps.marks.rows()]
    assert len(marks) == 8
    for piece in {row["piece"] for row in marks}:
        own = [row for row in marks if row["piece"] == piece]
        document = read_dxf(library.drawing(f"blank {piece}"))
        bends = document.modelspace().query('LINE[layer=="BENDS"]')
        # Seen from outside the left of the bus is at the left of its rear and at the right of its front.
        pieces = {row["piece"]: row["good_edge"] for row in library.end_caps.pieces.rows()}
        at_right = (piece.startswith("front")) != (pieces[piece] == "right")
        length = document.modelspace().query("LWPOLYLINE")[0]
        right = max(point[0] for point in length.get_points())
        taped = sorted(row["bottom_mm"] for row in own)
        drawn = sorted(right - line.dxf.start.x if at_right else line.dxf.start.x for line in bends)
        assert taped == pytest.approx(drawn, abs=1e-6), piece


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_templates_print_in_full_size(browser, library, tmp_path, paper):
    library.templates(paper=paper).write(tmp_path / "templates.html")
    page = browser.new_page()
    page.goto((tmp_path / "templates.html").as_uri())
    page.pdf(path=tmp_path / "templates.pdf", prefer_css_page_size=True)
    page.close()
    inches = {"A4": (297 / 25.4, 210 / 25.4), "Letter": (11, 8.5)}[paper]
    jigs = {name.split()[1]: library.drawing(name) for name in library.drawings if name.startswith("jig ")}
    measured = 0
    with pdfplumber.open(tmp_path / "templates.pdf") as pdf:
        for sheet in pdf.pages:
            assert (sheet.width / 72, sheet.height / 72) == pytest.approx(inches, abs=0.02)
            bars = [r for r in sheet.rects if r["non_stroking_color"] in ((0,), (0, 0, 0), 0) and r["fill"]]
            # The length to check, 200 mm, to a fifth of a millimetre.
            assert any(abs((r["x1"] - r["x0"]) * MM - 200) < 0.2 for r in bars), bars
            measured += strips_of(sheet, jigs)
            assert all(w["x0"] >= 0 and w["x1"] <= sheet.width for w in sheet.extract_words())
    assert measured > 100


def strips_of(sheet, jigs):
    """Holes of each strip on a page beside those of its jig's DXF file; how many."""
    count = 0
    titles = [w for w in sheet.extract_text_lines() if re.match(r"jig J\d+:", w["text"])]
    # A hole drawn as large as the pilot bit; dashes of the cut lines are curves to the reader too.
    circles = [c for c in sheet.curves if abs((c["x1"] - c["x0"]) * MM - 3.175) < 0.2]
    for title in titles:
        name, part = re.search(r"jig (J\d+):.*part (\d+) of", title["text"]).groups()
        of = int(re.search(r"part \d+ of (\d+)", title["text"]).group(1))
        outline = read_dxf(jigs[name]).modelspace().query("LWPOLYLINE")[0]
        length = max(point[0] for point in outline.get_points()) / of
        start = length * (int(part) - 1)
        holes = read_dxf(jigs[name]).modelspace().query("CIRCLE")
        own = [c for c in circles if title["bottom"] - 2 <= c["top"] <= title["bottom"] + 24 / MM]
        places = sorted((c["x0"] + c["x1"]) / 2 * MM - title["x0"] * MM for c in own)
        expected = sorted(h.dxf.center.x - start for h in holes if start - 3 <= h.dxf.center.x <= start + length + 3)
        # The lettering begins a millimetre into the strip, to the width of a letter's own margin.
        offset = places[0] - expected[0] if places else 0
        assert abs(offset + 1) < 0.4
        assert [p - offset for p in places] == pytest.approx(expected, abs=0.2), (name, part)
        count += len(places)
    return count


def test_templates_of_a_plan_without_jigs_say_so():
    page = rb.Plan.read("examples/workshop_bus.toml").evaluate().templates()
    assert "jig J1" in page.html
    with pytest.raises(InputError, match="A4"):
        rb.Plan.read("examples/workshop_bus.toml").evaluate().templates(paper="A3")
