"""A valid call of everything public that takes arguments: where tests of nonsense start from."""

from collections.abc import Callable
from typing import Any, NamedTuple

import raisedbody as rb


class Call(NamedTuple):
    """A callable and arguments that it takes."""

    of: Callable[..., Any]
    args: tuple[Any, ...]
    kwargs: dict[str, Any]


def call(of: Callable[..., Any], *args: Any, **kwargs: Any) -> Call:
    return Call(of, args, kwargs)


NOT_CALLED = {
    "LapChecks": "made by check_laps, of arrays that are right; a plain tuple of them",
    "Table": "holds what it is given: arrays of one length",
    "exceptions": "raised by the package; they keep what they are given",
    "plot": "draws with matplotlib; its arguments are checked in test_plot.py",
    "quote_batch": "takes frames of other libraries, and hands their values to Plan.quote_jobs",
    "Evaluation.write_lists": "writes folders; its argument is a path as that of Page.write",
}
"""What has no row here, each with the reason."""


def _bodies(plan: rb.Plan) -> dict[str, Call]:
    build = plan.evaluate()
    body, cuts, quote = build.body, plan.cuts(), build.quote
    sweep = plan.sweep({"skin.gauge": [16, 18]}, progress=False)
    choice = sweep.choose(minimise=["skin_mass_kg"])
    odds = quote.odds(draws=200, progress=False)
    return {
        "Body.half_width_mm": call(body.half_width_mm, "1 m", side="left", raised=False),
        "Choice.plan": call(choice.plan, 0),
        "Evaluation.csv": call(build.csv, "checks"),
        "Evaluation.drawing": call(build.drawing, "left"),
        "Evaluation.templates": call(build.templates, paper="A4"),
        "Odds.hours_h": call(odds.hours_h, 0.5),
        "Odds.price": call(odds.price, 0.5),
        "Plan.from_text": call(rb.Plan.from_text, plan.to_text(), "."),
        "Plan.measure_up": call(plan.measure_up, "after lift"),
        "Plan.quote_jobs": call(plan.quote_jobs, {"skin.gauge": [16]}, whole=False, progress=False),
        "Plan.read": call(rb.Plan.read, "plan.toml"),
        "Plan.replace": call(plan.replace, {"skin": {"gauge": 16}}),
        "Plan.sweep": call(plan.sweep, {"skin.gauge": [16, 18]}, progress=False),
        "Plan.with_cut": call(plan.with_cut, cuts[0]),
        "Plan.without": call(plan.without, "notes"),
        "Plan.write": call(plan.write, "out.toml", overwrite=True),
        "Quote.odds": call(quote.odds, draws=200, seed=1, progress=False),
        "Sweep.choose": call(
            sweep.choose, minimise=["skin_mass_kg"], maximise=["headroom_mm"], limits={"skin_mass_kg": (0, 1e6)}
        ),
        "Sweep.plan": call(sweep.plan, 0),
        "compare": call(rb.compare, {"a": plan}),
    }


def _joints() -> dict[str, Call]:
    sheet = rb.Sheet(thickness="1.2 mm", fy="250 MPa", fu="360 MPa")
    rivet = rb.BlindRivet("6.4 mm", shear="6 kN", tension="5 kN", head="13.4 mm", hole="6.5 mm")
    lap = rb.Lap(outer=sheet, inner=sheet, rivet=rivet, pitch="50 mm", edge="16 mm")
    coupons = rb.Coupons(["3620 N", "3780 N", "3550 N", "3910 N", "3690 N"])
    result = coupons.characteristic()
    tested = rb.Tested(lap, result.design())
    report = lap.check(shear="900 N", tension="100 N")
    seam = rb.Seam(outer=sheet, inner=sheet, rivet=rivet, pitch="50 mm", edge="16 mm")
    loads = {"shear": "900 N", "tension": "100 N", "method": "EN 1993-1-3"}
    spread = {"shear": "5 N/mm", "tension": "1 N/mm", "method": "EN 1993-1-3"}
    spacing = rb.Spacing("6.4 mm", hole="6.5 mm", thickness="1.2 mm")
    places = [("0 mm", "0 mm"), ("0 mm", "100 mm"), ("50 mm", "200 mm")]
    group = rb.RivetGroup(places)
    forces = {"x": "1 kN", "y": "25 kN", "at": ("100 mm", "0 mm"), "couple": ("250 N", "100 mm")}
    between = rb.InterRivet(thickness="1.2 mm", fy="350 MPa", modulus="205 GPa", fixity="round head")
    line = rb.wander(places, edge="13 mm", error="0.5 mm")
    laps = {
        "outer_mm": 1.2, "inner_mm": 1.2, "outer_fu_mpa": 360, "inner_fu_mpa": 360, "diameter_mm": 4.8, "hole_mm": 4.9,
        "head_mm": 10.1, "rivet_shear_n": 6000, "rivet_tension_n": 4400, "pitch_mm": [50, 60], "edge_mm": 12,
        "shear_n": 900, "tension_n": 50, "panel_edge": False, "steady_tension": False, "lower_anchor": "equal parts",
        "holes_may_stretch": False, "handbook_bearing_mpa": (500, 600), "aluminium_rivets": True,
        "method": "EN 1993-1-3",
    }  # fmt: skip
    return {
        "BlindRivet": call(
            rb.BlindRivet, "6.4 mm", shear="6 kN", tension="5 kN", head="13.4 mm", hole="6.5 mm", sealed=True,
            structural=False, body="aluminium", countersunk=False,
        ),
        "Check.explain": call(report.governing.explain, form="text"),
        "Coupons": call(
            rb.Coupons, ["3 kN", "3.1 kN", "3.2 kN"], thicknesses=["1 mm"] * 3, strengths=["300 MPa"] * 3,
            ordered_thickness="1 mm", ordered_strength="300 MPa",
        ),
        "Coupons.characteristic": call(coupons.characteristic, "log-normal", scatter=0.08),
        "Coupons.characteristic_en_1993_1_3": call(coupons.characteristic_en_1993_1_3, eta_k=0.8),
        "Coupons.design": call(coupons.design, "log-normal", scatter=0.08, eta_d=0.9),
        "Coupons.nominal_aisi_s100": call(coupons.nominal_aisi_s100, connection="not listed"),
        "InterRivet": call(
            rb.InterRivet, thickness="1.2 mm", fy="350 MPa", modulus="205 GPa", fixity="round head", poisson=0.3
        ),
        "InterRivet.elastic_mpa": call(between.elastic_mpa, "50 mm"),
        "InterRivet.pitch_mm": call(between.pitch_mm, "300 MPa"),
        "InterRivet.stress_mpa": call(between.stress_mpa, "50 mm"),
        "Lap": call(
            rb.Lap, outer=sheet, inner=sheet, rivet=rivet, pitch="50 mm", edge="16 mm", middle=sheet, rows=2,
            row_spacing="30 mm", panel_edge=False, steady_tension=False, lower_anchor="equal parts",
            holes_may_stretch=False, handbook_bearing=("500 MPa", "600 MPa"),
        ),
        "Lap.check": call(lap.check, **loads),
        "Lap.check_by": call(lap.check_by, ["EN 1993-1-3"], shear="900 N", tension="1 N", load_factor=1.5),
        "Lap.check_by_test": call(
            lap.check_by_test, tested, shear="900 N", tension="1 N", tested_in_tension=tested
        ),
        "Lap.fewest_rows": call(lap.fewest_rows, **spread),
        "Lap.largest_pitch": call(lap.largest_pitch, **spread),
        "Lap.smallest_edge": call(lap.smallest_edge, **loads),
        "Lap.thinnest_sheet": call(lap.thinnest_sheet, **loads, sheets="both"),
        "Report.explain": call(report.explain, form="html"),
        "Reports.explain": call(lap.check_by(["EN 1993-1-3"], shear="1 N").explain, form="latex"),
        "Reports.of": call(rb.Reports.of, [report]),
        "RivetGroup": call(rb.RivetGroup, places, diameters=["5 mm"] * 3),
        "RivetGroup.elastic": call(group.elastic, **forces),
        "RivetGroup.plastic": call(group.plastic, **forces, cap="3 kN"),
        "Seam": call(
            rb.Seam, outer=sheet, inner=sheet, rivet=rivet, pitch="50 mm", edge="16 mm", rows=1, tested=result
        ),
        "SeamBenchmark.against": call(seam.benchmark().against, factory=seam.benchmark()),
        "SeamBenchmark.explain": call(seam.benchmark().explain, form="text"),
        "Sheet": call(rb.Sheet, gauge=18, coating="G90", grade="CS", fy="250 MPa", fu="360 MPa"),
        "Spacing": call(
            rb.Spacing, "6.4 mm", hole="6.5 mm", thickness="1.2 mm", pull="both", pitch="50 mm", countersunk=False,
            exposed=True, bare_weathering_steel=False, compression_stress="100 MPa", fy="250 MPa", modulus="205 GPa",
            flat_width="100 mm", families=["EN 1993-1-3"],
        ),
        "Spacing.check": call(spacing.check, pitch="19 mm", rows="20 mm", edge="9.6 mm", end="20 mm"),
        "Spacing.least_mm": call(spacing.least_mm, "pitch"),
        "Spacing.most_mm": call(spacing.most_mm, "pitch"),
        "TestResult.design": call(result.design, eta_d=1.0, gamma_m=1.25),
        "TestResult.explain": call(result.explain, form="text"),
        "Tested": call(rb.Tested, lap, result.design(), format="allowable"),
        "Turned.explain": call(lap.largest_pitch(**spread).explain, form="text"),
        "Wander.check": call(line.check, spacing=spacing),
        "Wander.shift_mm": call(line.shift_mm, edge="14 mm"),
        "check_laps": call(rb.check_laps, **laps),
        "choose_drill": call(
            rb.choose_drill, "1/4 in", hole_least="6.5 mm", hole_most="6.7 mm", series=["letter", "number"],
        ),
        "choose_length": call(
            rb.choose_length, ["1.2 mm"] * 3, "inch blind rivet", "1/4 in", coating="0.12 mm", sealant="0.3 mm"
        ),
        "head_clearance": call(
            rb.head_clearance, "13.4 mm", "6.4 mm", inside_bend="9 mm", radius="2 mm",
            nose="14 mm",
        ),
        "hole_checks": call(
            rb.hole_checks, "17/64 in", diameter="6.4 mm", hole_least="6.5 mm", hole_most="7 mm"
        ),
        "prying_ratio": call(rb.prying_ratio, "12 mm", "12 mm"),
        "rivet_diameter_checks": call(rb.rivet_diameter_checks, ["1.2 mm", "2.4 mm"], "6.4 mm"),
        "suction_per_rivet_n": call(rb.suction_per_rivet_n, "0.8 kPa", "700 mm", "100 mm", spans=2),
        "wander": call(rb.wander, places, edge="13 mm", error="0.5 mm"),
    }  # fmt: skip


def _sheet_metal() -> dict[str, Call]:
    corner = rb.Corner("6 in", "90 deg", top_radius="6 1/8 in")
    rolls = rb.ThreeRoll(lower_radius="25 mm", spacing="70 mm", top_radius="30 mm")
    spring = rb.Springback(thickness="0.9 mm", fy="230 MPa", modulus="205 GPa", poisson=None)
    bend = rb.Bend(thickness="1.2 mm", radius="2 mm", angle="90 deg", k=0.4)
    cone = {"bottom_radius": "300 mm", "top_radius": "200 mm", "height": "500 mm", "angle": "360 deg"}
    panel = rb.Panel(a="700 mm", b="600 mm", thickness="1.2 mm")
    hat = rb.Section.hat("40 mm", "80 mm", "20 mm", "1.5 mm")
    web = rb.Panel(a="9.875 in", b="7 in", thickness="0.1043 in", modulus="10600 ksi", poisson=0.32)
    return {
        "Bend": call(rb.Bend, thickness="1.2 mm", radius="2 mm", angle="90 deg", k=0.4, material="carbon steel"),
        "Bend.check": call(bend.check, "k"),
        "CapBlank": call(
            rb.CapBlank, ["8 in", corner, "80 in", corner, "8 in"], thickness="1.2 mm", height="16 in",
            tape_error="1 mm", leans=["1 mm"] * 3, k=0.4, material="carbon steel",
        ),
        "Corner": call(rb.Corner, "6 in", "90 deg", top_radius="6 1/8 in"),
        "Frustum": call(rb.Frustum, **cone),
        "Frustum.ordinates": call(rb.Frustum(**cone).ordinates, parts=4),
        "Panel": call(
            rb.Panel, a="1.4 m", b="711.2 mm", thickness="0.912 mm", edges="simple", radius="2 m",
            material="carbon steel", modulus="205 GPa", poisson=0.3, expansion_um_m_k=12,
        ),
        "Panel.bow": call(panel.bow, "340 Pa"),
        "Panel.dent": call(panel.dent, "0.9 mm", fy="230 MPa", other_fy="230 MPa"),
        "Panel.diagonal_tension": call(
            web.diagonal_tension, "34.5 kip", depth="11.58 in", spacing="7 in", upright_length="9.875 in",
            upright_area="0.1443 in2", upright_eccentricity="0.251 in", upright_gyration="0.182 in", fy="60 ksi",
            fu="62 ksi", flange_restraint=0.93, upright_restraint=1.62,
        ),
        "Panel.frequency": call(panel.frequency, areal_mass="10 kg/m2"),
        "Panel.heating": call(panel.heating, "30 K", restraint="both ways"),
        "Panel.skin_over_frame_k": call(
            panel.skin_over_frame_k, skin="60 degC", frame="40 degC", skin_hung="45 degC", frame_hung="20 degC",
            frame_material="carbon steel", slip="0.1 mm",
        ),
        "Section.chain": call(
            rb.Section.chain, [("0 mm", "30 mm"), ("0 mm", "0 mm"), ("20 mm", "0 mm")], wall="1.5 mm", radius="2 mm",
            closed=False,
        ),
        "Section.channel": call(rb.Section.channel, "40 mm", "20 mm", "1.5 mm", radius="2 mm"),
        "Section.effective": call(hat.effective, "200 MPa", fy="230 MPa", method="EN 1993-1-5", compressed="away"),
        "Section.hat": call(rb.Section.hat, "40 mm", "80 mm", "20 mm", "1.5 mm", radius="3 mm"),
        "Section.mass_kg_m": call(hat.mass_kg_m, "7850 kg/m3"),
        "Section.tube": call(rb.Section.tube, "2 in", "1 in", "0.0598 in", radius="3 mm"),
        "Section.with_skin": call(hat.with_skin, "0.9 mm", "90 mm"),
        "Section.zee": call(rb.Section.zee, "40 mm", "20 mm", "1.5 mm", radius="2 mm"),
        "Springback": call(rb.Springback, thickness="0.9 mm", fy="230 MPa", modulus="205 GPa", poisson=0.3),
        "Springback.final_mm": call(spring.final_mm, "150 mm"),
        "Springback.final_mm_per_mpa": call(spring.final_mm_per_mpa, "150 mm"),
        "Springback.loaded_mm": call(spring.loaded_mm, "150 mm"),
        "ThreeRoll": call(rb.ThreeRoll, lower_radius="25 mm", spacing="70 mm", top_radius="30 mm"),
        "ThreeRoll.radius_mm": call(rolls.radius_mm, "5 mm", "0.9 mm"),
        "ThreeRoll.setting": call(rolls.setting, "150 mm", thickness="0.9 mm", springback=spring),
        "ThreeRoll.travel_mm": call(rolls.travel_mm, "150 mm", "0.9 mm"),
        "effective_width": call(rb.effective_width, "50 mm", "0.9 mm", "230 MPa", psi=0.5, edge="internal"),
        "least_bend_radius_mm": call(rb.least_bend_radius_mm, "2 mm", "25 %"),
        "skin_strips": call(rb.skin_strips, "0.9 mm", "300 mm", "100 MPa", modulus="205 GPa"),
        "sol_air": call(
            rb.sol_air, air="35 degC", irradiance="1000 W/m2", absorptance=0.9, attitude="horizontal", film="17 W/m2/K"
        ),
    }  # fmt: skip


def _lines_and_frames() -> dict[str, Call]:
    hole_line = {
        "holes": [("0 mm", "0.2 mm"), ("98 mm", "-1 mm"), ("171 mm", "0.9 mm"), ("301 mm", "0 mm"), ("0.4 m", "0 mm")],
        "spoilt": [2], "along_error": "0.5 mm", "off_error": "0.3 mm", "old_metal": "stays", "start": "0 mm",
        "end": "400 mm", "end_play": "3 mm", "pitch": "100 mm", "least_pitch": "40 mm", "most_pitch": "130 mm",
        "clearance": "6 mm", "hole": "6.5 mm", "edge": "15 mm", "edge_error": "0.5 mm", "least_edge": "9 mm",
    }  # fmt: skip
    line = rb.HoleLine(**hole_line)
    fit = line.fit()
    worth = {"spacing_worth": "40 mm", "jump_worth": "3 mm", "plug_worth": 1}
    plane = {
        "nodes_mm": [[0, 0], [0, 1800], [2200, 1800], [2200, 0]], "members": [(0, 1), (1, 2), (2, 3)], "area_mm2": 1e6,
        "second_moment_mm4": [60e3, 40e3, 60e3], "modulus_mpa": 210e3, "pinned": [0], "fixed": [3],
    }  # fmt: skip
    frame = rb.Frame(**plane)
    load = rb.FrameLoad.node(1, x_n=1000)
    space = {
        "nodes_mm": [[1000, 0, 0], [-500, 866, 0], [-500, -866, 0], [0, 0, 2000]], "members": [(0, 3), (1, 3), (2, 3)],
        "bars": [], "area_mm2": 200, "modulus_mpa": 205e3, "second_moment_y_mm4": 1e4, "second_moment_z_mm4": 1e4,
        "torsion_mm4": 1e4, "shear_modulus_mpa": 8e4, "up": {0: (0, 1, 0)}, "pinned": [0], "fixed": [1],
        "held": {2: ["x", "y"]}, "springs": {2: {"z": 1000.0}},
    }  # fmt: skip
    tripod = rb.SpaceFrame(**space)
    pressed = [rb.SpaceLoad(3, z_n=-3000)]
    return {
        "Frame": call(rb.Frame, **plane, sprung_n_mm_rad={1: 1e6}),
        "Frame.solve": call(frame.solve, [load], second_order=True),
        "FrameLoad.node": call(rb.FrameLoad.node, 1, x_n=1000, y_n=1, moment_n_mm=5),
        "FrameLoad.point": call(rb.FrameLoad.point, 1, at=0.5, x_n=1, y_n=2),
        "FrameLoad.spread": call(rb.FrameLoad.spread, 1, start=0.1, end=0.9, x_n_mm=1, y_n_mm=2),
        "FrameResult.at": call(frame.solve([load]).at, member=1, part=0.5),
        "HoleLine": call(rb.HoleLine, **hole_line),
        "HoleLine.plan": call(line.plan, **worth),
        "HoleLineFit.at_mm": call(fit.at_mm, along="100 mm"),
        "HoleLineFit.error_at_mm": call(fit.error_at_mm, along="100 mm"),
        "HoleLinePlan.jigs": call(line.plan(**worth).jigs, tolerance="1 mm"),
        "SpaceFrame": call(rb.SpaceFrame, **space),
        "SpaceFrame.critical_load_factor": call(tripod.critical_load_factor, loads=pressed),
        "SpaceFrame.solve": call(tripod.solve, loads=pressed),
        "SpaceLoad": call(rb.SpaceLoad, 3, x_n=1, y_n=1, z_n=-2000, moment_x_n_mm=1, moment_y_n_mm=1, moment_z_n_mm=1),
        "jigs": call(rb.jigs, [("A", "400 mm", 4)], tolerance="1 mm"),
    }


def _shop() -> dict[str, Call]:
    sheets = [{"length": "8 ft", "width": "4 ft", "price": "58 USD"}]
    blanks = [{"name": "panel", "length": "57 in", "width": "15 in", "count": 3}]
    shear = {"longest_cut": "10 ft", "cut_time": "3 min"}
    cut = {"sheets": sheets, "blanks": blanks, "shear": shear}
    tasks = [rb.Task("hang", "hang", work="2 h"), rb.Task("rivet", "rivet", work="3 h", after=["hang"])]
    air = {"temperature": "10 degC", "humidity": "75 %", "so2": "10 mg/m2/d", "chloride": "3 mg/m2/d"}
    film = {"loss": "20 %"}
    return {
        "BarCuts": call(
            rb.BarCuts, bars=[{"length": "20 ft", "price": "44 USD"}],
            pieces=[{"name": "post", "length": "7 ft 10 in", "count": 6}], saw={"kerf": "2 mm"}, labour="85 USD/h",
            units="inches", time_limit="1 s",
        ),
        "Drawing": call(rb.Drawing, "a", "b", "<svg/>", dxf="0\nEOF"),
        "Drawing.write": call(rb.Drawing("a", "b", "<svg/>").write, "a.svg", overwrite=True),
        "GalvanicPair": call(
            rb.GalvanicPair, "aluminium", "carbon steel", exposure="harsh", area_first="1 m2", area_second="1 m2",
            fastener=False,
        ),
        "GalvanicPair.explain": call(rb.GalvanicPair("aluminium", "carbon steel").explain, form="text"),
        "Page": call(rb.Page, "a", "<p>b"),
        "Page.write": call(rb.Page("a", "<p>b").write, "a.html", overwrite=True),
        "Schedule": call(
            rb.Schedule, tasks, people=3, day="8 h", start="8:00", tools=1, openings=[("door", ["hang"], ["rivet"])],
            close_same_day=False,
        ),
        "SheetCuts": call(
            rb.SheetCuts, **cut, keep={"length": "1 ft", "width": "1 ft"}, labour="85 USD/h", units="inches",
            time_limit="1 s",
        ),
        "SheetCuts.drawing": call(rb.SheetCuts(**cut).drawing, 0),
        "Task": call(
            rb.Task, "rivet", "rivet", work="3 h", people=2, tools=1, after=["hang"], on="A",
            starts_within=("10:00", "16:00"), whole=True,
        ),
        "cartridges_count": call(rb.cartridges_count, "2.4 L", "310 mL"),
        "catalogue_table": call(rb.catalogue_table, "drill"),
        "duplex_life": call(rb.duplex_life, (40, 40), (10, 10), "C5"),
        "first_year_losses": call(rb.first_year_losses, **air),
        "hanging_order": call(rb.hanging_order, [("a", "b"), ("b", "c")], things=["a", "b", "c"]),
        "inches": call(rb.inches, 107.95),
        "layer_lives": call(rb.layer_lives, thickness="19.2 um", least="13.7 um", category="C3", metal="zinc"),
        "losses_over_years": call(rb.losses_over_years, [1, 10], category="C4", metal="steel"),
        "paint_durability": call(rb.paint_durability, "C4", "130 um"),
        "parse": call(rb.parse, "4 1/4 in", "length"),
        "sealant_volume_l": call(
            rb.sealant_volume_l, "1 m", width="25 mm", depth="0.5 mm", waste="10 %"
        ),
        "spreading_rate_ft2_gal": call(rb.spreading_rate_ft2_gal, "1.6 mil", "42 %", **film),
        "spreading_rate_m2_l": call(rb.spreading_rate_m2_l, "60 um", "45 %", **film),
        "unpainted_allowed": call(rb.unpainted_allowed, "zinc-iron"),
        "wet_film_um": call(rb.wet_film_um, "60 um", "50 %"),
        "yearly_cost": call(
            rb.yearly_cost, first="1000 USD", renewal="900 USD", life_years=10, horizon_years=30, discount="4 %"
        ),
    }  # fmt: skip


def _measured(plan: rb.Plan) -> dict[str, Call]:
    def unmoved(form: rb.MeasureUp) -> dict[str, str]:
        known = [row for row in form.readings.rows() if row["kind"] != "gap"]
        return {row["name"]: f"{row['expected_mm']} mm" for row in known}

    before, lifted = unmoved(plan.measure_up("before cut")), plan.measure_up("after lift")
    return {
        "MeasureUp.fit": call(lifted.fit, unmoved(lifted), before=before),
        "MeasureUp.read": call(lifted.read, "readings.csv"),
        "MeasureUp.write": call(lifted.write, "readings.csv", overwrite=True),
    }


def calls(plan: rb.Plan) -> dict[str, Call]:
    """A valid call by the name of what is called."""
    parts = [_bodies(plan), _joints(), _sheet_metal(), _lines_and_frames(), _shop(), _measured(plan)]
    return {name: own for part in parts for name, own in part.items()}
