"""The public interface used as a typed program would; `make test` puts it through `mypy --strict`."""

from collections.abc import Callable

import raisedbody as rb
from raisedbody.exceptions import InputError, PlanFileError, PlanSyntaxError


def where(error: InputError) -> list[str]:
    """Each problem with its place."""
    return [f"{problem.field or 'plan'}:{problem.line or '?'}: {problem.message}" for problem in error.problems]


def file_of(error: PlanFileError) -> str:
    """The file and the number of the system's error."""
    return f"{error.filename} ({error.errno})"


def joint() -> float | None:
    """One joint, by hand."""
    sheet = rb.Sheet(gauge=18, coating="A40", grade="SS33")
    rivet = rb.BlindRivet("6.4 mm", product="ISO 15976")
    lap = rb.Lap(outer=sheet, inner=sheet, rivet=rivet, pitch="4 1/4 in", edge="5/8 in")
    report: rb.Report = lap.check(shear="900 N", tension="150 N", method="EN 1993-1-3")
    checks: tuple[rb.Check, ...] = report.checks
    capacity: float | None = checks[0].capacity_n
    return capacity


def main() -> None:
    """Use what the package offers."""
    version: str = rb.__version__
    place: tuple[int, int] | None = None
    try:
        raise PlanSyntaxError("not valid TOML", 3, 7)
    except PlanSyntaxError as error:
        place = (error.line, error.column)
    print(version, place, where(InputError("no plan")), file_of(PlanFileError("cannot read", 2, "bus.toml")))

    plan: rb.Plan = rb.Plan.read("examples/workshop_bus.toml")
    build: rb.Evaluation = plan.evaluate()
    axles: tuple[float, float] | None = build.mass.axles_after_kg
    aisle_mm: float | None = build.body.aisle_headroom_after_mm
    points: rb.Table = build.body.outline_after
    rows: list[dict[str, object]] = list(build.checks.rows())
    both: rb.Comparison = rb.compare({"as planned": plan, "thinner": plan.replace(skin={"gauge": 20})})
    axis: str = rb.plot.comparison(both, "skin_mass_kg", limits={"skin_mass_kg": (None, 400)}).get_xlabel()
    svg: str = build.drawing("left").svg
    form: rb.MeasureUp = plan.measure_up("after lift")
    fit: Callable[..., rb.Squareness] = form.fit
    print(build.verdict, axles, aisle_mm, points.height, len(rows), len(both), len(svg), joint())
    print(form.readings.height, fit.__name__, axis)


if __name__ == "__main__":
    main()
