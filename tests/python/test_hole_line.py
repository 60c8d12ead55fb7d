"""Lines of old holes and drilling jigs as a user works with them; fit and choice against SciPy."""

import copy
import itertools
import json
import pickle
from typing import Any

import numpy as np
import pytest
from numpy.typing import NDArray
from scipy.optimize import Bounds, LinearConstraint, curve_fit, milp
from scipy.sparse import coo_array

import raisedbody as rb

LIMITS = {
    "along_error": "0.5 mm",
    "off_error": "0.3 mm",
    "old_metal": "stays",
    "end_play": "5 mm",
    "pitch": "100 mm",
    "least_pitch": "60 mm",
    "most_pitch": "130 mm",
    "clearance": "6 mm",
    "hole": "6.5 mm",
}


def measured(along_mm: Any, off_mm: Any) -> list[tuple[str, str]]:
    return [(f"{x} mm", f"{y} mm") for x, y in zip(along_mm, off_mm, strict=True)]


def made_up(count: int, seed: int, **changes: Any) -> rb.HoleLine:
    """Holes some 100 mm apart that wander by a millimetre or two, invented."""
    rng = np.random.default_rng(seed)
    along = np.round(np.cumsum(rng.normal(100, 9, count)), 1)
    off = np.round(0.3 + 0.0008 * along + rng.normal(0, 1.2, count), 2)
    spoilt = [i for i in range(1, count - 1) if rng.random() < 0.08]
    ends = {"start": f"{along[0]} mm", "end": f"{along[-1]} mm"}
    return rb.HoleLine(measured(along, off), spoilt=spoilt, **LIMITS | ends | changes)


@pytest.fixture
def line() -> rb.HoleLine:
    return made_up(24, seed=3, edge="16 mm", least_edge="9.6 mm")


def test_five_holes_by_hand() -> None:
    # Elementary least squares by hand: slope 200 / 2.5e6, mean 0.18; largest residual 0.24 of the second hole.
    holes = measured([0, 500, 1000, 1500, 2000], [0.2, -0.1, 0.4, 0.1, 0.3])
    fit = rb.HoleLine(holes, start="0 mm", end="2 m", **LIMITS).fit()
    assert (fit.slope, fit.at_mm("0 mm"), fit.peak_mm) == pytest.approx((8.0e-5, 0.100, 0.24))
    assert (fit.worst, fit.freedoms, fit.strays, fit.wander_mm) == (1, 3, (), 0)


def test_a_sheet_of_eight_feet_takes_77_holes() -> None:
    # Arithmetic: 2438.4 mm less 12.7 mm at both ends is 76 spaces of 31.75 mm.
    pitches = {"pitch": "1 1/4 in", "least_pitch": "1 in", "most_pitch": "1 1/4 in"}
    sheet = rb.HoleLine(measured([0, 2413], [0, 0]), start="0 mm", end="2413 mm", **LIMITS | pitches)
    plan = sheet.plan(spacing_worth="10 mm", jump_worth="2 mm", plug_worth=1)
    assert len(plan.holes["along_mm"]) == 77
    assert plan.pitch_least_mm == pytest.approx(31.75) == plan.pitch_most_mm


@pytest.mark.parametrize("seed", range(4))
def test_fit_and_covariance_agree_with_scipy(seed: int) -> None:
    rng = np.random.default_rng(seed)
    n = 30
    along = np.sort(rng.uniform(0, 3000, n)).round(2)
    off = (1 + 0.004 * along + rng.normal(0, 1, n)).round(3)
    errors = rng.uniform(0.1, 0.9, n).round(3)
    spoilt = [4, 17]
    spread = LIMITS | {"off_error": [f"{u} mm" for u in errors], "along_error": "0.7 mm"}
    holes = rb.HoleLine(measured(along, off), spoilt=spoilt, start="0 mm", end="3 m", **spread)
    fit = holes.fit()
    sound = np.setdiff1d(np.arange(n), spoilt)
    x, y = along[sound], off[sound]
    slope = 0.0
    for _ in range(20):  # the effective variance holds the slope
        u = np.hypot(errors[sound], slope * 0.7)
        (place, slope), covariance = curve_fit(lambda x, a, m: a + m * x, x, y, sigma=u, absolute_sigma=True)
    assert (fit.at_mm("0 mm"), fit.slope) == pytest.approx((place, slope), rel=1e-6)
    assert np.array(fit.covariance) == pytest.approx(covariance, rel=1e-5)
    at = np.array([1.0, 1500.0])
    assert fit.error_at_mm("1500 mm") == pytest.approx(np.sqrt(at @ covariance @ at), rel=1e-5)
    residuals = off - place - slope * along
    table = fit.table
    assert table["off_line_mm"] == pytest.approx(residuals, abs=1e-6)
    assert fit.chi_square == pytest.approx(np.sum((residuals[sound] / u) ** 2), rel=1e-6)
    assert fit.rms_mm == pytest.approx(np.sqrt(np.mean(residuals[sound] ** 2)), rel=1e-6)
    # Residuals scatter less than the errors by what the line took up: the hat matrix.
    design = np.column_stack([np.ones_like(x), x])
    of_line = np.einsum("ij,jk,ik->i", design, covariance, design)
    assert table["error_mm"][sound] == pytest.approx(np.sqrt(u**2 - of_line), rel=1e-5)


def test_the_stated_error_is_the_error_of_many_measurements() -> None:
    rng = np.random.default_rng(11)
    along = np.linspace(0, 1900, 20)
    wander = rng.normal(0, 1.5, 20)
    lines = [
        rb.HoleLine(measured(along, wander + rng.normal(0, 0.3, 20)), start="0 mm", end="1900 mm", **LIMITS).fit()
        for _ in range(400)
    ]
    scatter = np.std([fit.at_mm("1900 mm") for fit in lines])
    # The scatter of 400 is known to a twenty-eighth: 1 / sqrt(800). Three of those are 11 %.
    assert scatter == pytest.approx(lines[0].error_at_mm("1900 mm"), rel=0.11)
    # What is not measuring is told as wander.
    assert np.mean([fit.wander_mm for fit in lines]) == pytest.approx(np.std(wander, ddof=2), rel=0.1)


def links(line: rb.HoleLine, weights: dict[str, float]) -> tuple[NDArray[np.float64], NDArray[np.int64], int]:
    """Every link that the rules allow between places of the line, worked out anew: (cost), (from, to), places."""
    fit = line.fit()
    old = [row | {"old": i} for i, row in enumerate(fit.table.rows())]
    edge, least = line.edge_mm, line.least_edge_mm
    z = 1.6448536269514722
    usable = [h for h in old if not h["spoilt"] and (edge is None or h["edge_least_mm"] >= least)]
    nodes: list[dict[str, Any]] = [*usable]
    for end in (line.start_mm, line.end_mm):
        nodes.append({"along_mm": end, "off_line_mm": 0.0, "old": None})
    nodes.sort(key=lambda h: h["along_mm"])
    play = line.end_play_mm

    def stands(x: float, used: tuple[int | None, ...]) -> bool:
        if edge is not None:
            error = np.hypot(fit.error_at_mm(f"{x} mm"), line.edge_error_mm)
            if edge - fit.at_mm(f"{x} mm") - z * error < least:
                return False
        need = line.hole_mm + line.clearance_mm + z * 0.5
        near = (h for h in old if abs(h["along_mm"] - x) < need and h["old"] not in used)
        return all(np.hypot(h["along_mm"] - x, h["off_line_mm"]) >= need for h in near)

    cost, pairs = [], []
    inside = [h for h in old if line.start_mm - play <= h["along_mm"] <= line.end_mm + play]
    plug = weights["plug"] if line.old_metal == "stays" else 0.0
    place = {id(h): i + 1 for i, h in enumerate(nodes)}
    for h in nodes:
        if abs(h["along_mm"] - line.start_mm) <= play and (h["old"] is not None or h["along_mm"] == line.start_mm):
            before = sum(o["along_mm"] < h["along_mm"] for o in inside)
            cost.append(plug * before + (h["old"] is None))
            pairs.append((0, place[id(h)]))
        if abs(h["along_mm"] - line.end_mm) <= play and (h["old"] is not None or h["along_mm"] == line.end_mm):
            after = sum(o["along_mm"] > h["along_mm"] for o in inside)
            cost.append(plug * after)
            pairs.append((place[id(h)], len(nodes) + 1))
    for one, two in itertools.combinations(nodes, 2):
        gap = two["along_mm"] - one["along_mm"]
        passed = sum(one["along_mm"] < o["along_mm"] < two["along_mm"] for o in inside)
        for spaces in range(1, int(gap / line.least_pitch_mm) + 1):
            pitch = gap / spaces
            if pitch > line.most_pitch_mm:
                continue
            places = [one["along_mm"] + m * pitch for m in range(spaces + 1)]
            if one["old"] is not None:
                places = places[1:]
            if two["old"] is not None:
                places = places[:-1]
            if not all(stands(x, (one["old"], two["old"])) for x in places):
                continue
            off = [one["off_line_mm"], *[0.0] * (spaces - 1), two["off_line_mm"]]
            new = spaces - 1 + (two["old"] is None)
            uneven = spaces * ((pitch - line.pitch_mm) / weights["spacing"]) ** 2
            uneven += float(np.sum(np.diff(off) ** 2)) / weights["jump"] ** 2
            cost.append(new + plug * passed + uneven)
            pairs.append((place[id(one)], place[id(two)]))
    return np.array(cost), np.array(pairs), len(nodes) + 2


@pytest.mark.parametrize(
    ("count", "seed", "spacing", "jump", "plug", "changes"),
    [
        (12, 1, 10.0, 2.0, 0.5, {}),
        (20, 2, 4.0, 1.0, 0.2, {"edge": "16 mm", "least_edge": "12.5 mm"}),
        (24, 3, 30.0, 0.8, 1.0, {"old_metal": "covered", "clearance": "1 mm"}),
        (40, 4, 15.0, 1.5, 0.0, {"least_pitch": "40 mm", "pitch": "80 mm"}),
    ],
)
def test_the_plan_is_the_optimum_of_a_general_solver(
    count: int, seed: int, spacing: float, jump: float, plug: float, changes: dict[str, str]
) -> None:
    line = made_up(count, seed, **changes)
    plan = line.plan(spacing_worth=f"{spacing} mm", jump_worth=f"{jump} mm", plug_worth=plug)
    cost, pairs, places = links(line, {"spacing": spacing, "jump": jump, "plug": plug})
    # One unit flows from the first to the last place, over links that are taken whole.
    arcs = np.arange(len(cost))
    flow = coo_array(
        (np.repeat([1.0, -1.0], len(cost)), (pairs.T.ravel(), np.tile(arcs, 2))), shape=(places, len(cost))
    ).tocsr()
    balance = np.zeros(places)
    balance[[0, -1]] = 1, -1
    solved = milp(
        cost, integrality=np.ones_like(cost), bounds=Bounds(0, 1), constraints=LinearConstraint(flow, balance, balance)
    )
    assert solved.success
    assert plan.cost == pytest.approx(solved.fun, rel=1e-6, abs=1e-6)


def test_a_plan_keeps_its_promises(line: rb.HoleLine) -> None:
    plan = line.plan(spacing_worth="10 mm", jump_worth="1.5 mm", plug_worth=0.5)
    holes = plan.holes
    assert np.diff(holes["along_mm"]) == pytest.approx(holes["pitch_mm"][1:])
    assert line.least_pitch_mm <= plan.pitch_least_mm <= plan.pitch_most_mm <= line.most_pitch_mm
    assert plan.new_count == np.sum(holes["new"])
    fates = list(plan.old_holes["fate"])
    assert (plan.used_count, plan.plug_count) == (fates.count("use again"), fates.count("plug"))
    assert plan.used_count + plan.plug_count == len(line)
    assert min(holes["edge_least_mm"]) == plan.edge_least_mm >= line.least_edge_mm
    spaces = np.diff(holes["along_mm"])
    jumps = np.diff(holes["off_line_mm"])
    assert plan.pitch_rms_mm == pytest.approx(np.sqrt(np.mean((spaces - 100) ** 2)))
    assert plan.jump_rms_mm == pytest.approx(np.sqrt(np.mean(jumps**2)))
    assert plan.jump_most_mm == pytest.approx(np.max(np.abs(jumps)))
    uneven = np.sum((spaces - 100) ** 2) / 10**2 + np.sum(jumps**2) / 1.5**2
    assert plan.cost == pytest.approx(plan.new_count + 0.5 * plan.plug_count + uneven)


def test_the_planner_trades_holes_against_evenness(line: rb.HoleLine) -> None:
    plans = [line.plan(spacing_worth=f"{10 * k} mm", jump_worth=f"{k} mm", plug_worth=0.5) for k in (0.5, 1, 2, 5, 20)]
    effort = [plan.new_count + 0.5 * plan.plug_count for plan in plans]
    uneven = [(plan.pitch_rms_mm / 10) ** 2 + plan.jump_rms_mm**2 for plan in plans]
    assert effort == sorted(effort, reverse=True)
    assert effort[0] > effort[-1]
    assert uneven[0] < uneven[-1]


def test_covered_metal_needs_no_plug() -> None:
    holes = measured([0, 70, 200], [0, 1, 0])
    line = rb.HoleLine(holes, start="0 mm", end="200 mm", **LIMITS | {"old_metal": "covered"})
    plan = line.plan(spacing_worth="5 mm", jump_worth="5 mm", plug_worth=50)
    assert plan.old_holes["fate"].tolist() == ["use again", "leave, covered", "use again"]
    assert (plan.new_count, plan.plug_count) == (1, 0)


def test_a_gap_that_no_pitch_serves_is_named() -> None:
    pitches = {"pitch": "90 mm", "least_pitch": "75 mm", "most_pitch": "95 mm", "end_play": "0 mm"}
    line = rb.HoleLine(measured([0, 100], [0, 0]), start="0 mm", end="100 mm", **LIMITS | pitches)
    with pytest.raises(rb.InputError, match=r"the gap of 100.0 mm .* 1 space of 100.0 mm: 5.00 mm over") as caught:
        line.plan(spacing_worth="5 mm", jump_worth="2 mm", plug_worth=1)
    assert [(p.field, p.value) for p in caught.value.problems] == [("most_pitch", "95 mm")]


@pytest.mark.parametrize(
    ("holes", "changes", "paths"),
    [
        ([(0, 0)], {}, ["holes"]),
        ([(0, 0), (100, 0)], {"spoilt": [1]}, ["holes"]),
        ([(0, 0), (100, 0), (90, 0)], {}, ["holes[2].along"]),
        ([(0, 0), (100, 0)], {"spoilt": [2, -1]}, ["spoilt[0]", "spoilt[1]"]),
        ([(0, 0), (100, 0)], {"off_error": ["0.3 mm"]}, ["off_error"]),
        ([(0, 0), (100, 0)], {"off_error": ["0.3 mm", "0 mm"]}, ["off_error[1]"]),
        ([(0, 0), (100, 0)], {"old_metal": "gone"}, ["old_metal"]),
        ([(0, 0), (100, 0)], {"edge": "16 mm"}, ["least_edge"]),
        ([(0, 0), (100, 0)], {"least_edge": "16 mm"}, ["edge"]),
        ([(0, 0), (100, 0)], {"edge_error": "1 mm"}, ["edge_error"]),
        ([(0, 0), (100, 0)], {"end": "20 mm"}, ["end"]),
        ([(0, 0), (100, 0)], {"pitch": "200 mm"}, ["pitch"]),
        ([(0, 0), (100, 400)], {"clearance": "-1 mm", "start": "-90 m"}, ["holes[1].off", "start", "clearance"]),
    ],
)
def test_broken_lines_are_refused(holes: list[tuple[float, float]], changes: dict[str, Any], paths: list[str]) -> None:
    arguments = LIMITS | {"start": "0 mm", "end": "100 mm"} | changes
    with pytest.raises(rb.InputError) as caught:
        rb.HoleLine([(f"{x} mm", f"{y} mm") for x, y in holes], **arguments)
    assert [p.field for p in caught.value.problems] == paths


def test_units_are_asked_for(line: rb.HoleLine) -> None:
    with pytest.raises(rb.QuantityError) as caught:
        rb.HoleLine([("0 mm", "0.1"), ("1 kg", "0 mm")], start="0 mm", end="1 m", **LIMITS | {"hole": "6"})
    assert [p.field for p in caught.value.problems] == ["holes[0].off", "holes[1].along", "hole"]
    with pytest.raises(rb.InputError) as refused:
        line.plan(spacing_worth="0 mm", jump_worth="2 m", plug_worth=-1)
    assert [p.field for p in refused.value.problems] == ["spacing_worth", "jump_worth", "plug_worth"]
    with pytest.raises(rb.InputError, match="plug_worth: NaN is out of range; allowed: a finite number"):
        line.plan(spacing_worth="40 mm", jump_worth="3 mm", plug_worth=float("nan"))


def test_an_unmarked_spoilt_hole_is_found() -> None:
    along = np.arange(0, 1200, 100)
    off = np.where(along == 500, 9.0, 0.001 * along)
    fit = rb.HoleLine(measured(along, off), start="0 mm", end="1100 mm", **LIMITS).fit()
    assert fit.strays == (5,) == (fit.worst,)
    marked = rb.HoleLine(measured(along, off), spoilt=[5], start="0 mm", end="1100 mm", **LIMITS).fit()
    assert (marked.strays, round(marked.peak_mm, 9)) == ((), 0)


def test_jigs_round_each_place_from_the_true_one() -> None:
    # Arithmetic: 28 in in 6 spaces is 4 2/3 in: a third of 1/64 in off; stepped off it would be six thirds.
    gaps = [("posts 1 to 2", "28 in", 6), ("posts 2 to 3", "28 1/16 in", 6), ("posts 3 to 4", "28 in", 7)]
    jigs = rb.jigs(gaps, tolerance="1/64 in")
    assert jigs.table["gaps_count"].tolist() == [1, 1, 1]
    third = 25.4 / 64 / 3
    assert jigs.table["inch_error_mm"][0] == pytest.approx(third)
    assert jigs.table["stepped_error_mm"][0] == pytest.approx(6 * third)
    assert jigs.places["inches"][:7].tolist() == [
        "0 in", "4-43/64 in", "9-21/64 in", "14 in", "18-43/64 in", "23-21/64 in", "28 in",
    ]  # fmt: skip
    shared = rb.jigs(gaps, tolerance="1/32 in")
    assert shared.table["gaps_count"].tolist() == [2, 1]
    assert shared.gaps["departure_mm"][:2] == pytest.approx([25.4 / 32] * 2)
    assert len(shared) == 2
    assert (shared, pickle.loads(pickle.dumps(shared))) == (shared, shared)
    with pytest.raises(rb.InputError) as caught:
        rb.jigs([("a", "28 in", 1), ("b", "0 in", -3), ("c", "1 m", 10**9)], tolerance="-1 mm")
    assert [p.field for p in caught.value.problems] == [
        "tolerance", "gaps[0].spaces", "gaps[1].length", "gaps[1].spaces", "gaps[2].spaces",
    ]  # fmt: skip


def test_a_line_of_old_holes_has_its_drilling_table(line: rb.HoleLine) -> None:
    plan = line.plan(spacing_worth="10 mm", jump_worth="1.5 mm", plug_worth=0.5)
    jigs = plan.jigs(tolerance="1 mm")
    assert jigs.holes["along_mm"] == pytest.approx(plan.holes["along_mm"])
    by = np.array(jigs.holes["by"])
    inner = [name.startswith("J") for name in by]
    assert np.array(inner) == pytest.approx(plan.holes["new"])
    assert max(jigs.gaps["departure_mm"]) <= 1
    assert max(jigs.table["inch_error_mm"]) <= 25.4 / 128
    assert max(jigs.table["metric_error_mm"]) <= 0.05 + 1e-12


def test_values_survive_copy_pickle_and_json(line: rb.HoleLine, build: rb.Evaluation) -> None:
    plan = line.plan(spacing_worth="10 mm", jump_worth="1.5 mm", plug_worth=0.5)
    spread = rb.HoleLine(
        measured([0, 98, 201], [0, 1, 0]),
        spoilt=[1],
        start="0 mm",
        end="201 mm",
        **LIMITS | {"off_error": ["1 mm"] * 3},
    )
    for value in (line, spread, line.fit(), plan, plan.jigs(tolerance="1 mm"), build.drilling, build.drilling.jigs):
        assert pickle.loads(pickle.dumps(value)) == value
        assert copy.deepcopy(value) == value
        assert json.loads(json.dumps(value.to_dict(), allow_nan=True))
    assert repr(line).startswith("<HoleLine of 24 holes")
    assert "waviness" in repr(line.fit())
    assert plan.line == line == line.fit().line


def test_the_plan_drills_every_hole_of_every_line(build: rb.Evaluation) -> None:
    drilling = build.drilling
    lines = {row["id"]: row["holes_count"] for row in build.lines.rows()}
    old = build.hole_lines["rub rail, left"]
    table = drilling.jigs.holes
    names, counts = np.unique(table["line"], return_counts=True)
    drilled = dict(zip(names.tolist(), counts.tolist(), strict=True))
    assert drilled.pop("rub rail, left") == len(old.holes["along_mm"])
    assert drilled == {name: count for name, count in lines.items() if count}
    assert max(drilling.jigs.table["inch_error_mm"]) <= 25.4 / 128 + 1e-9
    # Each hole that goes through a jig is where the jig says, within the tolerance.
    places = {(row["jig"], row["hole"]): row["true_mm"] for row in drilling.jigs.places.rows()}
    assert drilling.jigs.tolerance_mm == 1
    served = {row["line"]: row for row in drilling.jigs.gaps.rows()}
    assert set(served) <= set(names.tolist())
    assert all(mm > 0 for (_, hole), mm in places.items() if hole)
    # Common practice, no source: 150 to 400 holes in 18 ga, 50 to 150 in hardened ribs, by an 1/8 in bit.
    uses = {row["part"]: row for row in drilling.bit_uses.rows()}
    sheet, rib = uses["sheet"]["holes"], uses["rib"]["holes"]
    assert drilling.bits == (int(np.ceil(sheet / 400 + rib / 150)), int(np.ceil(sheet / 150 + rib / 50)))
    assert uses["rib"]["standing"] == "common practice"


def test_bits_are_not_told_for_thicker_sheet(plan: rb.Plan) -> None:
    drilling = plan.replace(skin={"gauge": 16}).evaluate().drilling
    assert drilling.bits is None
    assert np.isnan(drilling.bit_uses["bit_holes_least"][0])


def test_a_plan_with_a_gap_that_no_pitch_serves_is_refused_at_its_place(plan: rb.Plan) -> None:
    lines = plan.to_dict()["hole_line"]
    lines[0] |= {"least_pitch": "100 mm", "pitch": "101 mm", "most_pitch": "102 mm"}
    with pytest.raises(rb.InputError, match="no pitch from") as caught:
        plan.replace(hole_line=lines)
    assert caught.value.problems[0].field.startswith("hole_line[0].")
    lines[0] |= {"name": " "}
    lines.append(lines[0] | {"name": "other", "edge": {"off": "-300 m", "least": "9 mm"}})
    with pytest.raises(rb.InputError) as refused:
        plan.replace(hole_line=lines)
    paths = [p.field for p in refused.value.problems]
    assert "hole_line[0].name" in paths
    assert "hole_line[1].edge.off" in paths


def test_what_stays_keeps_its_edge_by_a_check(build: rb.Evaluation) -> None:
    rows = [row for row in build.checks.rows() if row["name"] == "edge distance, old hole line"]
    assert [(row["verdict"], row["demand"]) for row in rows] == [("passes", 9.6)]
    assert rows[0]["capacity"] == pytest.approx(build.hole_lines["rub rail, left"].edge_least_mm)
    assert "rub rail, left" in rows[0]["subject"]


def test_a_line_of_old_holes_takes_the_place_of_even_ones(plan: rb.Plan, build: rb.Evaluation) -> None:
    old = plan.to_dict()["hole_line"]
    moved = plan.replace(hole_line=[old[0] | {"lies_on": {"line": "L-bottom 1", "from": "100 mm"}}]).evaluate()
    lines = {row["id"]: row for row in moved.lines.rows()}
    assert lines["L-bottom 1"]["old_line"] == "rub rail, left"
    assert {row["old_line"] for name, row in lines.items() if name != "L-bottom 1"} == {""}
    assert set(build.lines["old_line"]) == {""}
    # Every hole once: in the drilling table, and with its rivet.
    table = moved.drilling.jigs.holes
    assert len(table["line"]) == moved.rivets
    assert "rub rail, left" not in table["line"].tolist()
    own = table["by"][table["line"] == "L-bottom 1"]
    assert any(by.startswith("old hole") for by in own)
    rivets = sum(row["quantity"] for row in moved.tasks.rows() if row["name"] == "set rivets")
    assert rivets == moved.rivets
    assert pickle.loads(pickle.dumps(moved)) == moved
    with pytest.raises(rb.InputError, match='did you mean "L-bottom 1"') as caught:
        plan.replace(hole_line=[old[0] | {"lies_on": {"line": "L-bottm 1"}}])
    assert caught.value.field == "hole_line[0].lies_on.line"


def test_every_drilling_table_is_on_the_page(build: rb.Evaluation) -> None:
    page, told = build._repr_html_(), str(build)
    for name in np.unique(build.drilling.jigs.holes["line"]):
        assert f"{name}: " in page
        assert f"{name}: " in told
    for jig in build.drilling.jigs.table["jig"]:
        assert f"jig {jig}: " in page
        assert f"jig {jig}: " in told
