"""Memory stays where it is over a million calls, and over thousands of plans."""

import json
import subprocess
import sys
from pathlib import Path

import pytest

# Each of the cheap calls is made 50,000 times: where one of them loses an allocation, none of which is smaller than
# 16 bytes, that comes to 800 kB. Of plans a few are kept, and are larger or smaller: 7 kB for each of 300 rounds.
MOST_GROWTH_KB = {"many": 700, "plans": 2_000}

PROGRAMME = """
import json, sys
from pathlib import Path
import numpy as np
import raisedbody as rb

def resident_kb():
    lines = Path("/proc/self/status").read_text().splitlines()
    return next(int(line.split()[1]) for line in lines if line.startswith("VmRSS"))

def refused(call, *args, **kwargs):
    try:
        call(*args, **kwargs)
    except (rb.RaisedbodyError, TypeError) as error:
        return str(error)
    raise AssertionError("it was taken")

plan = rb.Plan.read("examples/workshop_bus.toml")
text = plan.to_text()
build = plan.evaluate()
sheet = rb.Sheet(thickness="1.2 mm", fy="250 MPa", fu="360 MPa")
rivet = rb.BlindRivet("6.4 mm", shear="6 kN", tension="5 kN", head="13.4 mm", hole="6.5 mm")
lap = rb.Lap(outer=sheet, inner=sheet, rivet=rivet, pitch="50 mm", edge="9.6 mm")
report = lap.check(shear="900 N")
frame = rb.Frame([[0, 0], [0, 1800]], [(0, 1)], area_mm2=1e3, second_moment_mm4=1e6, modulus_mpa=2e5, fixed=[0])
laps = dict(outer_mm=1.2, outer_fu_mpa=360, diameter_mm=4.8, hole_mm=4.9, head_mm=10.1, rivet_shear_n=6000,
            rivet_tension_n=4400, edge_mm=12, shear_n=900, pitch_mm=np.linspace(20, 90, 50))

cheap = [
    lambda: sheet.thickness_mm, lambda: lap.pitch_mm, lambda: report.verdict, lambda: report.governing.name,
    lambda: build.mass.after_kg, lambda: plan.name, lambda: rb.inches(107.95), lambda: rb.parse("4 1/4 in", "length"),
    lambda: rb.SpaceLoad(3, z_n=-2000), lambda: rb.FrameLoad.node(1, x_n=10), lambda: lap == lap, lambda: hash(plan),
    lambda: rb.Sheet(thickness="1.2 mm", fy="250 MPa", fu="360 MPa"), lambda: repr(lap), lambda: report[0],
    lambda: refused(rb.inches, float("nan")), lambda: refused(rb.inches, 10**400),
    lambda: refused(rb.parse, "4.25", "length"),
    lambda: refused(rb.SpaceLoad, -1), lambda: refused(rb.inches, "x"),
]
rare = [
    lambda: rb.check_laps(**laps).utilisation.sum(), lambda: build.checks, lambda: lap.check(shear="900 N").to_dict(),
    lambda: frame.solve([rb.FrameLoad.node(1, x_n=10)]).nodes, lambda: refused(rb.Frame, np.zeros((2, 3)), []),
    lambda: rb.RivetGroup([("0 mm", "0 mm"), ("0 mm", "100 mm")]).elastic(x="1 kN", at=("0 mm", "9 mm")).table,
    lambda: refused(plan.replace, skin={"gauge": 99}),
]

def many(rounds):
    # A rare call for every three rounds of the cheap ones.
    for i in range(rounds):
        for call in cheap:
            call()
        if i % 3 == 0:
            rare[i // 3 % len(rare)]()
    return rounds * len(cheap) + rounds // 3

def plans(rounds):
    for i in range(rounds):
        own = rb.Plan.from_text(text)
        own = own.replace(skin={"gauge": 16 + 2 * (i % 3)}, fastening={"pitch": f"{80 + i % 37} mm"})
        built = own.evaluate()
        built.packet()
        built.drawing(built.drawings[i % len(built.drawings)])
        built.csv("checks") if "checks" in built.lists else built.csv(built.lists[0])
    return rounds * 6

def growth(work, warm, rounds):
    work(warm)
    before = resident_kb()
    calls = work(rounds)
    return {"calls": calls, "growth_kb": resident_kb() - before, "resident_kb": resident_kb()}

print(json.dumps(growth(many, 3_000, 50_000) if sys.argv[1] == "many" else growth(plans, 60, 300)))
"""


@pytest.mark.skipif(not Path("/proc/self/status").exists(), reason="reads the resident memory as Linux tells it")
@pytest.mark.parametrize(("work", "calls"), [("many", 1_000_000), ("plans", 1_800)])
def test_memory_stays_where_it_is(work: str, calls: int) -> None:
    run = subprocess.run(
        [sys.executable, "-c", PROGRAMME, work], capture_output=True, text=True, timeout=900, check=False
    )
    assert run.returncode == 0, run.stderr
    told = json.loads(run.stdout)
    print(told)
    assert told["calls"] >= calls
    assert told["growth_kb"] < MOST_GROWTH_KB[work], told
