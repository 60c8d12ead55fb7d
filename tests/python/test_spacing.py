"""Spacing rules, wandering holes and sheets pressed between rivets as a user works with them."""

import pickle

import pint
import pytest

import raisedbody as rb


def exposed(**kwargs) -> rb.Spacing:
    return rb.Spacing("6.4 mm", hole="6.5 mm", thickness="1.2 mm", exposed=True, **kwargs)


def verdicts(checks: rb.Table) -> dict[tuple[str, str], str]:
    return {(row["name"], row["clause"]): row["verdict"] for row in checks.rows()}


# Rivet 6.4 mm, hole 6.5 mm, sheet 1.2 mm, open to weather, pull both ways: the rules' tables multiplied out.
@pytest.mark.parametrize(
    ("clause", "distance", "side", "bound_mm"),
    [
        ("EN 1993-1-3:2006 Table 8.1", "pitch", "least", 19.2),  # 3 d, from memory
        ("EN 1993-1-3:2006 Table 8.1", "edge", "least", 9.6),  # 1.5 d, from memory
        ("EN 1993-1-8:2005 Table 3.3", "pitch", "least", 15.6),  # 2.4 d0, from memory
        ("EN 1993-1-8:2005 Table 3.3", "pitch", "most", 16.8),  # 14 t, from memory
        ("US Army TM 10-5410-229-13&P", "rows", "least", 16.0),  # 2.5 D
        ("FAA AC 43.13-1B, single row", "edge", "least", 12.8),  # 2 D
        ("AISC 360 J3.5", "edge", "most", 14.4),  # 12 t, from memory
    ],
)
def test_each_rule_has_its_row(clause, distance, side, bound_mm) -> None:
    rows = [r for r in exposed().table.rows() if (r["clause"], r["distance"], r["side"]) == (clause, distance, side)]
    assert [row["bound_mm"] for row in rows] == [pytest.approx(bound_mm)]
    assert rows[0]["formula"]
    assert rows[0]["source"]
    assert rows[0]["required"]
    assert (rows[0]["standing"] == "from memory") == ("from memory" in rows[0]["source"])


def test_plate_rules_ask_the_impossible_of_sheet() -> None:
    # 14 t = 16.8 mm (EN 1993-1-8 Table 3.3) against 3 d = 19.2 mm (EN 1993-1-3 Table 8.1), both from memory.
    sheet = exposed(families=["EN 1993-1-8", "EN 1993-1-3"])
    assert sheet.families == ("EN 1993-1-3", "EN 1993-1-8")
    assert sheet.least_mm("pitch") == pytest.approx(19.2)
    assert sheet.most_mm("pitch") == pytest.approx(16.8)
    assert sheet.conflicts[0] == (
        "pitch cannot keep both p1, p2 ≥ 3 d = 19.2 mm (EN 1993-1-3:2006 Table 8.1) and "
        "p ≤ min(14 t, 200 mm) = 16.8 mm (EN 1993-1-8:2005 Table 3.3)"
    )
    checks = sheet.check(pitch="40 mm")
    most = next(row for row in checks.rows() if row["name"] == "pitch, most")
    assert most["verdict"] == "outside the rule's range"
    assert "keep the least distance" in most["reason"]
    # In plate of 4 mm 14 t is 56 mm: both can be kept.
    plate = rb.Spacing("6.4 mm", hole="6.5 mm", thickness="4 mm", exposed=True, families=["EN 1993-1-3", "EN 1993-1-8"])
    assert plate.conflicts == ()
    assert plate.most_mm("pitch") == pytest.approx(56)


def test_only_required_rules_that_cover_the_rivet_decide() -> None:
    aircraft = rb.Spacing("6.4 mm", hole="6.5 mm", thickness="1.2 mm", families=["aircraft"])
    assert aircraft.least_mm("pitch") == pytest.approx(19.2), "4 D is a habit"
    assert aircraft.most_mm("pitch") is None, "8 D is a habit"
    # The screw rule ends at 0.25 in.
    screws = rb.Spacing("6.4 mm", hole="6.5 mm", thickness="1.2 mm", families=["AISI S100"])
    assert screws.least_mm("pitch") is None
    assert not screws.table["covered"].any()
    assert set(screws.check(pitch="50 mm", rows="50 mm", edge="50 mm", end="50 mm")["verdict"].tolist()) == {
        "outside the rule's range"
    }
    inch = rb.Spacing("1/4 in", hole="17/64 in", thickness="1.2 mm", families=["AISI S100"])
    assert inch.least_mm("pitch") == pytest.approx(3 * 6.35)


def test_required_distances_fail_and_habits_are_pointed_out() -> None:
    spacing = rb.Spacing("6.4 mm", hole="6.5 mm", thickness="1.2 mm", families=["EN 1993-1-3", "aircraft"])
    short = verdicts(spacing.check(pitch="19 mm", edge="12.8 mm"))
    assert short["pitch, least", "EN 1993-1-3:2006 Table 8.1"] == "fails"
    assert short["edge distance, least", "FAA AC 43.13-1B, single row"] == "passes"
    assert short["pitch, least", "US Navy training manual, usual pitch"] == "not assessed"
    assert short["end distance, least", "EN 1993-1-3:2006 Table 8.1"] == "not assessed", "what is not known cannot pass"


def test_pitch_sets_the_distance_of_lines() -> None:
    # Rows at 75 % of the pitch, not under 2.5 D: an aircraft maintenance article.
    def rows(checks: rb.Table) -> list[str]:
        found = [row for row in checks.rows() if row["clause"] == "aircraft practice, rows"]
        return [row["verdict"] for row in found if row["name"] == "distance of lines, least"]

    spacing = rb.Spacing("4.8 mm", hole="4.9 mm", thickness="1 mm", pitch="40 mm", families=["aircraft"])
    assert rows(spacing.check(rows="29 mm")) == ["not assessed"]
    assert rows(spacing.check(rows="30 mm")) == ["passes"]
    assert rows(spacing.check(rows="29 mm", pitch="36 mm")) == ["passes"], "the planned pitch replaces the spacing's"
    assert rows(rb.Spacing("4.8 mm", hole="4.9 mm", thickness="1 mm", families=["aircraft"]).check(rows="30 mm")) == []


def test_pull_turns_the_pitches_of_plate() -> None:
    # EN 1993-1-8 Table 3.3, from memory: p1 2.2 d0 along the pull, p2 2.4 d0 across it; hole 10 mm.
    def least(pull: str) -> tuple[float | None, float | None]:
        seam = rb.Spacing("9.8 mm", hole="10 mm", thickness="2 mm", pull=pull, families=["EN 1993-1-8"])
        return seam.least_mm("pitch"), seam.least_mm("rows")

    assert least("across") == pytest.approx((24, 22))
    assert least("along") == pytest.approx((22, 24))
    assert least("both") == pytest.approx((24, 24))


def test_a_compressed_sheet_bounds_the_pitch() -> None:
    # By hand with AISI S100-16 I1.3, from memory: 1.16 x 1.2 x 45.055 = 62.72; 1.11 x 1.2 x 29.709 = 39.57, over 3 w.
    unit = pint.UnitRegistry()
    spacing = rb.Spacing(
        6.4 * unit.mm,
        hole="6.5 mm",
        thickness=unit.Quantity(0.12, "cm"),
        compression_stress="100 MPa",
        fy=0.23 * unit.gigapascal,
        modulus="203 GPa",
        flat_width="8 mm",
        families=["AISI S100"],
    )
    most = [row["bound_mm"] for row in spacing.table.rows() if row["side"] == "most"]
    assert most == pytest.approx([62.72, 39.57], abs=0.005)
    assert spacing.to_dict()["fy_mpa"] == pytest.approx(230)
    assert spacing.to_dict()["rules"][0]["distance"] == "pitch"


def test_a_wandering_line_is_as_good_as_its_worst_hole() -> None:
    # Elementary geometry: 13 - 2.1 = 10.9 mm, less the error 10.4 mm; 12.8 - 10.4 = 2.4 mm.
    holes = [("0 mm", "0.3 mm"), ("108 mm", "-1 mm"), ("215 mm", "2.1 mm"), ("324 mm", "0.6 mm")]
    line = rb.wander(holes, edge="13 mm", error="0.5 mm")
    assert (line.hole, line.along_mm, line.error_mm) == (2, 215, 0.5)
    assert (line.least_mm, line.most_mm, line.certain_mm) == pytest.approx((10.9, 14, 10.4))
    assert line.shift_mm("12.8 mm") == pytest.approx(2.4)
    assert line.shift_mm("9.6 mm") == 0
    checks = line.check(rb.Spacing("6.4 mm", hole="6.5 mm", thickness="1.2 mm"))
    found = {row["clause"]: row for row in checks.rows()}
    assert set(checks["subject"].tolist()) == {"hole 3 at 215 mm"}
    assert found["EN 1993-1-3:2006 Table 8.1"]["verdict"] == "passes"
    army = found["US Army TM 10-5410-229-13&P"]
    assert (army["verdict"], army["reason"]) == ("fails", "move the edge out by 2.4 mm")
    assert found["AISI S100-16 J4, by analogy"]["verdict"] == "outside the rule's range"
    assert repr(line) == "<Wander of 4 holes: nearest the edge is holes[2], 10.4 mm for certain>"
    assert line.to_dict()["certain_mm"] == line.certain_mm


def test_the_measuring_error_can_hide_the_answer() -> None:
    line = rb.wander([("0 mm", "0.4 mm")], edge="13 mm", error="0.5 mm")
    checks = line.check(rb.Spacing("6.4 mm", hole="6.5 mm", thickness="1.2 mm", families=["aircraft"]))
    army = next(checks.rows())
    assert army["verdict"] == "not assessed"
    assert "measure closer or move the edge out by 0.7 mm" in army["reason"]


# Derived by hand from F = c π² E / (12 (1 - ν²)) (t/s)², E 205 000 MPa, ν 0.3, c 3 (textbooks, from memory).
@pytest.mark.parametrize(
    ("thickness", "pitch", "poisson", "stress_mpa"),
    [("1.2 mm", "50 mm", 0.3, 320.2), ("1.2 mm", "50 mm", None, 291.4), ("0.9 mm", "75 mm", 0.3, 80.0)],
)
def test_stress_between_rivets(thickness, pitch, poisson, stress_mpa) -> None:
    line = rb.InterRivet(thickness=thickness, fy="350 MPa", modulus="205 GPa", fixity="round head", poisson=poisson)
    assert line.stress_mpa(pitch) == pytest.approx(stress_mpa, abs=0.05)
    assert line.pitch_mm(f"{line.stress_mpa(pitch)} MPa") == pytest.approx(float(pitch.split()[0]))
    assert line.poisson == poisson
    assert line.standing == "from memory"


def test_yield_caps_the_stress() -> None:
    line = rb.InterRivet(thickness="1.2 mm", fy="350 MPa", modulus="205 GPa", fixity="round head")
    assert line.elastic_mpa("30 mm") > 800
    assert line.stress_mpa("30 mm") == 350
    assert line.pitch_mm("351 MPa") is None


# Coefficients of aircraft structures textbooks, from memory; effective lengths: bolts 0.5 and rivets 0.65
# (aerospacengineering.net, inter-rivet buckling).
@pytest.mark.parametrize(
    ("given", "coefficient", "standing"),
    [
        ({"fixity": "flat head"}, 4, "from memory"),
        ({"fixity": "spot weld"}, 3.5, "from memory"),
        ({"fixity": "countersunk tension"}, 1.5, "from memory"),
        ({"fixity": "countersunk shear"}, 1, "from memory"),
        ({"fixity": "hollow blind"}, 1.5, "assumed"),
        ({}, 1.5, "assumed"),
        ({"coefficient": 2}, 2, "from memory"),
        ({"effective_length": 0.5}, 4, "from memory"),
        ({"effective_length": 0.65}, 2.37, "from memory"),
    ],
)
def test_end_fixity(given, coefficient, standing) -> None:
    line = rb.InterRivet(thickness="1.2 mm", fy="350 MPa", modulus="205 GPa", **given)
    assert line.coefficient == pytest.approx(coefficient, abs=0.005)
    assert line.standing == standing
    assert line.source


def test_a_modulus_left_out_is_an_assumption() -> None:
    line = rb.InterRivet(thickness="1.2 mm", fy="350 MPa", fixity="round head")
    materials = rb.catalogue_table("material")
    assert line.modulus_mpa == materials["modulus_mpa"][materials["name"] == "carbon steel"][0]
    assert line.standing == "assumed"
    assert "modulus of carbon steel, assumed" in line.source
    assert line.to_dict()["modulus_mpa"] == line.modulus_mpa


@pytest.mark.parametrize(
    "thing",
    [
        exposed(),
        exposed(families=["sealing"], pitch="1 1/2 in", countersunk=True),
        rb.Spacing(
            "4.8 mm",
            hole="4.9 mm",
            thickness="1 mm",
            compression_stress="90 MPa",
            fy="33 ksi",
            modulus="205 GPa",
            flat_width="1 in",
        ),
        rb.InterRivet(thickness="1.2 mm", fy="50 ksi"),
        rb.InterRivet(thickness="1.2 mm", fy="350 MPa", modulus="69 GPa", coefficient=2.5, poisson=None),
        rb.InterRivet(thickness="1.2 mm", fy="350 MPa", effective_length=0.65, poisson=0.33),
    ],
)
def test_representations_read_like_calls(thing) -> None:
    assert eval(repr(thing), {"Spacing": rb.Spacing, "InterRivet": rb.InterRivet}) == thing
    assert pickle.loads(pickle.dumps(thing)) == thing


def test_a_wander_travels() -> None:
    line = rb.wander([("0 in", "1/64 in"), ("4 in", "-1/32 in")], edge="1/2 in", error="0.5 mm")
    assert pickle.loads(pickle.dumps(line)) == line
    assert line != rb.wander([("0 in", "1/64 in")], edge="1/2 in", error="0.5 mm")


@pytest.mark.parametrize(
    ("call", "error", "field", "words"),
    [
        (lambda: exposed(families=["EN 1993-1-5"]), rb.InputError, "families", 'did you mean "EN 1993-1-8"'),
        (lambda: exposed(families=[]), rb.InputError, "families", '"sealing"'),
        (lambda: exposed(pull="up"), rb.InputError, "pull", '"across"'),
        (lambda: exposed(fy="230 MPa"), rb.InputError, None, "flat_width: missing"),
        (lambda: exposed(pitch="-5 mm"), rb.InputError, "pitch", "-5 mm is out of range"),
        (lambda: exposed(pitch=5), rb.QuantityError, "pitch", 'write "5 mm"'),
        (lambda: exposed().least_mm("width"), rb.InputError, "distance", "pitch"),
        (lambda: exposed().check(end="1 m"), rb.InputError, "end", "1 to 300 mm"),
        (lambda: exposed().check(edge="1 kg"), rb.QuantityError, "edge", "no unit of length"),
        (lambda: rb.wander([], edge="13 mm", error="1 mm"), rb.InputError, "holes", "at least one"),
        (lambda: rb.wander([("0 mm", "x")], edge="13 mm", error="1 mm"), rb.QuantityError, "holes[0].off", "x"),
        (
            lambda: rb.wander([("0 mm", "1 mm")], edge="13 mm", error="1 mm").shift_mm("-1 mm"),
            rb.InputError,
            "edge",
            "-1 mm",
        ),
        (lambda: rb.InterRivet(thickness="1.2 mm", fy="1 MPa"), rb.InputError, "fy", "20 to 2000"),
        (
            lambda: rb.InterRivet(thickness="1.2 mm", fy="350 MPa", fixity="round"),
            rb.InputError,
            "fixity",
            'did you mean "round head"',
        ),
        (
            lambda: rb.InterRivet(thickness="1.2 mm", fy="350 MPa", fixity="round head", coefficient=3),
            rb.InputError,
            "fixity",
            "give one of them",
        ),
        (
            lambda: rb.InterRivet(thickness="1.2 mm", fy="350 MPa", coefficient=float("nan")),
            rb.InputError,
            "coefficient",
            "NaN is out of range",
        ),
        (
            lambda: rb.InterRivet(thickness="1.2 mm", fy="350 MPa", effective_length=-0.6),
            rb.InputError,
            "effective_length",
            "-0.6 is out of range",
        ),
        (
            lambda: rb.InterRivet(thickness="1.2 mm", fy="350 MPa").stress_mpa("0 mm"),
            rb.InputError,
            "pitch",
            "0 mm",
        ),
        (lambda: rb.InterRivet(thickness="1.2 mm", fy="350 MPa").pitch_mm("-1 MPa"), rb.InputError, "stress", "-1 MPa"),
    ],
)
def test_bad_input_is_named(call, error, field, words) -> None:
    with pytest.raises(error) as caught:
        call()
    assert field is None or caught.value.field == field
    assert words in str(caught.value)


def test_several_problems_come_at_once() -> None:
    with pytest.raises(rb.InputError) as caught:
        exposed(fy="1 MPa", modulus="205 MPa", compression_stress="-1 MPa", flat_width="8 mm", pull="up")
    fields = [(p.field, p.value) for p in caught.value.problems]
    assert fields == [
        ("pull", "up"),
        ("modulus", "205 MPa"),
        ("compression_stress", "-1 MPa"),
        ("fy", "1 MPa"),
    ]
    with pytest.raises(rb.InputError) as caught:
        rb.wander([("0 mm", "1 m"), ("90 m", "0 mm")], edge="0 mm", error="-1 mm")
    assert [p.field for p in caught.value.problems] == ["edge", "error", "holes[0].off", "holes[1].along"]
    assert caught.value.problems[2].value == "1 m", "as the caller wrote it"
    with pytest.raises(TypeError, match="one text"):
        exposed(families="sealing")
