"""Everything that a call returns pickles and copies; pickles of an older version of the same schema are read.

``python tests/python/test_pickles.py`` writes the kept file anew, which only a new schema is a reason for.
"""

import copy
import pickle
import pickletools
from collections.abc import Callable
from pathlib import Path
from typing import Any

import nonsense
import pytest

import raisedbody as rb

ROOT = Path(__file__).parents[2]
KEPT = Path(__file__).parent / "data/schema-1.pickle"


@pytest.fixture(scope="module")
def results(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Any]:
    """What every public call returns."""
    plan = rb.Plan.read(ROOT / "examples/mobile_library.toml")
    folder = tmp_path_factory.mktemp("results")
    with pytest.MonkeyPatch.context() as patch:
        patch.chdir(folder)
        plan.write("plan.toml")
        plan.measure_up("after lift").write("readings.csv")
        return {name: of(*args, **kwargs) for name, (of, args, kwargs) in nonsense.calls(plan).items()}


@pytest.mark.parametrize(
    "clone",
    [
        lambda value: pickle.loads(pickle.dumps(value, 2)),
        lambda value: pickle.loads(pickle.dumps(value)),
        copy.copy,
        copy.deepcopy,
    ],
    ids=["protocol 2", "newest protocol", "copy", "deepcopy"],
)
def test_everything_returned_pickles_and_copies(results: dict[str, Any], clone: Callable[[Any], Any]) -> None:
    for name, value in results.items():
        twin = clone(value)
        assert type(twin) is type(value), name
        # A LapChecks holds arrays, and NaN is not equal to itself.
        same = repr(twin) == repr(value) if isinstance(value, rb.LapChecks | rb.Table) else twin == value
        assert same, name


def kept() -> dict[str, Any]:
    """Values whose pickles are kept, made from nothing but their own arguments and a plan."""
    plan = rb.Plan.read(ROOT / "examples/workshop_bus.toml")
    build = plan.evaluate()
    sheet = rb.Sheet(thickness="1.2 mm", fy="250 MPa", fu="360 MPa")
    rivet = rb.BlindRivet("6.4 mm", shear="6 kN", tension="5 kN", head="13.4 mm", hole="6.5 mm")
    lap = rb.Lap(outer=sheet, inner=sheet, rivet=rivet, pitch="50 mm", edge="16 mm")
    sweep = plan.sweep({"skin.gauge": [16, 18, 20]}, progress=False)
    frame = rb.Frame(
        [[0, 0], [0, 1800], [2200, 1800], [2200, 0]], [(0, 1), (1, 2), (2, 3)], area_mm2=1e6, second_moment_mm4=6e4,
        modulus_mpa=210e3, pinned=[0, 3],
    )  # fmt: skip
    with pytest.raises(rb.InputError) as refused:
        plan.replace(skin={"gauge": 99})
    return {
        "plan": plan,
        "evaluation": build,
        "mass": build.mass,
        "body": build.body,
        "comparison": rb.compare({"a": plan}),
        "sweep": sweep,
        "choice": sweep.choose(minimise=["skin_mass_kg"]),
        "cuts": plan.cuts(),
        "lap": lap,
        "report": lap.check(shear="900 N"),
        "check": lap.check(shear="900 N").governing,
        "turned": lap.largest_pitch(shear="5 N/mm"),
        "section": rb.Section.hat("40 mm", "80 mm", "20 mm", "1.5 mm"),
        "frame": frame,
        "frame result": frame.solve([rb.FrameLoad.node(1, x_n=1000)]),
        "space load": rb.SpaceLoad(3, z_n=-2000),
        "panel": rb.Panel(a="700 mm", b="600 mm", thickness="1.2 mm"),
        "error": refused.value,
        "fault": rb.InternalError("index 3 of 2", "src/plan/order.rs:12"),
    }


def test_a_pickle_of_this_schema_is_read_whatever_version_wrote_it() -> None:
    old = pickle.loads(KEPT.read_bytes())
    new = kept()
    assert set(old) <= set(new)
    for name, value in old.items():
        assert type(value) is type(new[name]), name
    # Numbers may be another version's; what was put in is the same.
    assert old["plan"] == new["plan"]
    assert old["evaluation"].plan == new["plan"]
    for name in ("lap", "frame", "space load", "panel"):
        assert old[name] == new[name], name
    assert old["report"].verdict == new["report"].verdict
    assert len(old["sweep"]) == 3
    assert old["error"].problems == new["error"].problems
    assert str(old["fault"]) == str(new["fault"])


def test_a_pickle_names_nothing_but_public_names_of_the_package() -> None:
    # What it names must be there in every later version.
    names = {
        f"{arg}"
        for opcode, arg, _ in pickletools.genops(pickle.dumps(kept(), 2))
        if opcode.name == "GLOBAL" and str(arg).startswith("raisedbody")
    }
    assert names
    for name in names:
        module, _, own = name.partition(" ")
        assert module in {"raisedbody", "raisedbody._core", "raisedbody.exceptions"}, name
        assert own in {*rb.__all__, *rb.exceptions.__all__}, name


class _Newer:
    """A plan as a later version would pickle it."""

    def __reduce__(self) -> tuple[Callable[[str], rb.Plan], tuple[str]]:
        text = (ROOT / "examples/workshop_bus.toml").read_text()
        return rb.Plan.from_text, (text.replace("schema = 1", "schema = 2"),)


def test_a_pickle_of_a_newer_schema_is_refused_by_name() -> None:
    with pytest.raises(
        rb.InputError, match=r"schema 2; this version reads schema 1\. Install a newer version"
    ) as caught:
        pickle.loads(pickle.dumps(_Newer()))
    assert caught.value.field == "schema"


if __name__ == "__main__":
    KEPT.parent.mkdir(exist_ok=True)
    KEPT.write_bytes(pickletools.optimize(pickle.dumps(kept(), 4)))
