"""The main job: evaluate the travelling library, choose its cut, compare two gauges, write everything to out/."""

import csv
from pathlib import Path

import raisedbody as rb

OUT = Path("out")


def main() -> None:
    """Run the demo from the top of the repository."""
    plan = rb.Plan.read("examples/mobile_library.toml")
    build = plan.evaluate()
    cuts = plan.cuts()
    comparison = rb.compare({"18 ga": plan, "16 ga": plan.replace(skin={"gauge": 16})})

    OUT.mkdir(exist_ok=True)
    (OUT / "drawings").mkdir(exist_ok=True)
    for name in build.drawings:
        drawing = build.drawing(name)
        for ending in ("svg", "dxf") if drawing.dxf else ("svg",):
            drawing.write(OUT / "drawings" / f"{name}.{ending}", overwrite=True)
    build.packet().write(OUT / "packet.html", overwrite=True)
    build.templates().write(OUT / "templates.html", overwrite=True)
    build.write_lists(OUT / "lists", overwrite=True)
    tables = {"cuts": cuts.table, "nesting": build.splices.nesting, "comparison": comparison.table}
    if build.quote:
        tables["quote_odds"] = build.quote.odds().quantiles
        (OUT / "letter.html").write_text(build.quote.letter(), encoding="utf-8")
    for name, table in tables.items():
        with (OUT / f"{name}.csv").open("w", newline="", encoding="utf-8") as file:
            writer = csv.writer(file)
            writer.writerow(table)
            writer.writerows(zip(*table.values(), strict=True))
    for stage in ("before cut", "after lift", "after tacking"):
        form = plan.measure_up(stage)
        for ending in ("html", "csv"):
            form.write(OUT / f"measure-up {stage}.{ending}", overwrite=True)
    (OUT / "evaluation.txt").write_text(str(build), encoding="utf-8")
    (OUT / "hand_calculation.txt").write_text(build.explain(), encoding="utf-8")

    print(build)
    print()
    print(cuts)
    print()
    print(comparison)
    others = "packet.html, templates.html, letter.html, measure-up forms, evaluation.txt, hand_calculation.txt"
    print(
        f"\nwritten to {OUT}/: {len(build.drawings)} drawings, {len(build.lists)} lists, {len(tables)} tables, {others}"
    )


if __name__ == "__main__":
    main()
