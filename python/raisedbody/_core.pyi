from collections.abc import Mapping
from numpy.typing import ArrayLike
from os import PathLike
from raisedbody.laps import LapChecks
from raisedbody.quantity import Quantity
from raisedbody.table import Table
from typing import Any, Final, SupportsFloat, SupportsIndex, final

__all__ = ["__version__", "BlindRivet", "Check", "Comparison", "Evaluation", "Lap", "Mass", "Plan", "Report", "Sheet", "catalogue_table", "check_laps", "compare", "inches", "parse"]

__version__: Final[str]

@final
class BlindRivet:
    """
    A blind rivet in its hole: a product of the catalogue, or values of your own. Cannot be changed.

    Args:
        diameter: Nominal diameter, such as ``"6.4 mm"`` or ``"1/4 in"``.
        product: Product standard, such as ``"ISO 15976"``; values given here replace its values.
        shear: Least shear load of one rivet, such as ``"3600 N"``.
        tension: Least tension load of one rivet.
        head: Head diameter.
        hole: Hole as drilled; the product's smallest where left out.
        sealed: Closed end: no water passes the core.
        structural: Locked mandrel.

    Raises:
        InputError: Unknown product or size (the known ones are named); a hole that is missing or smaller than the
            rivet; loads or sizes that no rivet has.
        QuantityError: A quantity without a unit, or with one of another kind.

    Example:
        >>> from raisedbody import BlindRivet
        >>> BlindRivet("6.4 mm", product="ISO 15976").shear_n
        3600.0
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(cls, /, diameter: str | Quantity, *, product: str | None = None, shear: str | Quantity | None = None, tension: str | Quantity | None = None, head: str | Quantity | None = None, hole: str | Quantity | None = None, sealed: bool | None = None, structural: bool | None = None) -> BlindRivet: ...
    def __reduce__(self, /) -> tuple[Any, ...]: ...
    def __repr__(self, /) -> str: ...
    @property
    def diameter_mm(self, /) -> float:
        """
        Nominal diameter, mm.
        """
    @property
    def head_mm(self, /) -> float | None:
        """
        Head diameter, mm; None where not known.
        """
    @property
    def hole_mm(self, /) -> float:
        """
        Hole, mm.
        """
    @property
    def label(self, /) -> str:
        """
        What to call it.
        """
    @property
    def sealed(self, /) -> bool:
        """
        Closed end: no water passes the core.
        """
    @property
    def shear_n(self, /) -> float | None:
        """
        Least shear load of one rivet, N; None where not known.
        """
    @property
    def standing(self, /) -> str:
        """
        How its numbers are known, at the weakest.
        """
    @property
    def structural(self, /) -> bool:
        """
        Locked mandrel.
        """
    @property
    def tension_n(self, /) -> float | None:
        """
        Least tension load of one rivet, N; None where not known.
        """
    def to_dict(self, /) -> dict[str, Any]:
        """
        The values by name, each ending in its unit; None for what is not known.
        """

@final
class Check:
    """
    One comparison of a demand with a capacity. Cannot be changed.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, ...]: ...
    def __repr__(self, /) -> str: ...
    @property
    def capacity(self, /) -> float | None:
        """
        What is there, in `unit`; None where it is not known or withdrawn.
        """
    @property
    def capacity_n(self, /) -> float | None:
        """
        What is there, N; None where the check is not of forces, or it is not known or withdrawn.
        """
    @property
    def clause(self, /) -> str:
        """
        Rule set and clause.
        """
    @property
    def demand(self, /) -> float | None:
        """
        What is asked, in `unit`; None where it is not known.
        """
    @property
    def demand_n(self, /) -> float | None:
        """
        What is asked, N; None where the check is not of forces or it is not known.
        """
    def explain(self, /) -> str:
        """
        The comparison as a hand calculation.
        """
    @property
    def formula(self, /) -> str:
        """
        The formula of the capacity, in the rule's symbols.
        """
    @property
    def level(self, /) -> str:
        """
        The kind of strength: ``"design"``, ``"allowable"`` or ``"as stated"``.
        """
    @property
    def name(self, /) -> str:
        """
        What is checked: ``"bearing"``, ``"net section"``, ``"hole"``.
        """
    @property
    def reason(self, /) -> str | None:
        """
        Why, where the verdict does not speak for itself.
        """
    @property
    def standing(self, /) -> str:
        """
        The weakest standing of the numbers that went in.
        """
    @property
    def subject(self, /) -> str:
        """
        Where it is checked; empty where there is only one place.
        """
    def to_dict(self, /) -> dict[str, Any]:
        """
        The values by name; None for what is not known.
        """
    @property
    def unit(self, /) -> str:
        """
        Unit of demand and capacity; empty for a ratio.
        """
    @property
    def utilisation(self, /) -> float | None:
        """
        Demand over capacity; None where either is not known.
        """
    @property
    def verdict(self, /) -> str:
        """
        ``"passes"``, ``"fails"``, ``"outside the rule's range"`` or ``"not assessed"``; only the first is a pass.
        """

@final
class Comparison:
    """
    Plans side by side; `compare` makes it. Cannot be changed. Printed, it is a table with a column for each plan.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __len__(self, /) -> int: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, ...]: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def names(self, /) -> tuple[str, ...]:
        """
        The names of the plans.
        """
    @property
    def table(self, /) -> Table:
        """
        A row for each plan: its name, the entries in which the plans differ (named by their path, such as
        ``skin.gauge``), verdict, price with its currency, then numbers whose name ends in their unit.
        """
    def to_dict(self, /) -> dict[str, Any]:
        """
        The row of each plan by its name, as plain values; None for what is not known.
        """

@final
class Evaluation:
    """
    A plan worked out: checks, layout, masses, order, hours and price; `Plan.evaluate` makes it. Cannot be changed.

    Printed, it is the whole evaluation as text; in a notebook it shows verdicts, a side view, mass and price. Its tables
    are `Table` objects, which any dataframe library takes; a column of quantities ends in its unit.

    Example:
        >>> import raisedbody as rb
        >>> build = rb.Plan.read("examples/workshop_bus.toml").evaluate()
        >>> build.rivets > 300, build.overall_height_mm
        (True, 3110.0)
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, ...]: ...
    def __repr__(self, /) -> str: ...
    def __str__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def assumed(self, /) -> Table:
        """
        Everything assumed, common practice or from memory: field, value, standing, source.
        """
    @property
    def cautions(self, /) -> tuple[str, ...]:
        """
        Cautions that go with every evaluation.
        """
    @property
    def checks(self, /) -> Table:
        """
        Every check; of each joint the one that governs it by each rule set. Each row carries its unit, NaN stands for
        what is not known. Columns: name, subject, clause, demand, capacity, unit, utilisation, level, verdict, reason,
        standing.
        """
    def drawing(self, side: str, /) -> str:
        """
        A side as seen from outside, as SVG.

        Args:
            side: ``"left"`` or ``"right"``, facing forward.

        Returns:
            The SVG document.

        Raises:
            InputError: There is no such side.
        """
    @property
    def end_panels(self, /) -> Table:
        """
        Panels that close the ends of the raised part: id, side, blank sizes, area_m2, middle.
        """
    def explain(self, /) -> str:
        """
        Every check as a hand calculation; of each joint all its checks.
        """
    @property
    def headroom_mm(self, /) -> float:
        """
        Clear height inside when floor and ceiling are built up, mm.
        """
    @property
    def joints(self, /) -> Table:
        """
        Every joint by every rule set: kind, lines, pitch_mm, shear_n and tension_n of one rivet (service loads), method,
        level, verdict, governing, utilisation.
        """
    @property
    def labour_h(self, /) -> float:
        """
        Hours of one person, all tasks.
        """
    @property
    def lines(self, /) -> Table:
        """
        Rivet lines: id, side, kind, ends, length_mm, pitch_mm (the widest on the line), tributary_mm, holes_count.
        """
    @property
    def mass(self, /) -> Mass:
        """
        Weight, centre of gravity, axle loads and stability, before and after.
        """
    @property
    def masses(self, /) -> Table:
        """
        Every mass that changes: name, group, change, mass_kg, x_mm, y_mm, z_mm, rise_mm, standing.
        """
    @property
    def name(self, /) -> str:
        """
        The plan's name.
        """
    @property
    def order(self, /) -> Table:
        """
        What to order: item, quantity, unit, note.
        """
    @property
    def outlook(self, /) -> Table:
        """
        How long coating and then steel last in each zone of the vehicle, without paint: ranges in years.
        """
    @property
    def overall_height_mm(self, /) -> float:
        """
        Overall height after the raise, mm.
        """
    @property
    def overrides(self, /) -> tuple[str, ...]:
        """
        Rows of the plan's own that add to the catalogue or replace its rows.
        """
    @property
    def plan(self, /) -> Plan:
        """
        The plan that was evaluated.
        """
    @property
    def price(self, /) -> str | None:
        """
        The total price with its currency, exact; None where the plan has no prices. Open items are not in it.
        """
    @property
    def price_open_items(self, /) -> tuple[str, ...]:
        """
        What has no price yet.
        """
    @property
    def quote(self, /) -> Table:
        """
        Lines of the quote: name, quantity, unit, unit_price, amount, currency; empty where the plan has no prices.
        """
    @property
    def rivets(self, /) -> int:
        """
        Rivets, one for each hole.
        """
    @property
    def seams(self, /) -> Table:
        """
        Laps on posts: side, post, over-sheet, under-sheet.
        """
    @property
    def sheets(self, /) -> Table:
        """
        Sheets on the sides: id, side, course (1 is the top), posts, edges and sizes in mm, area_m2.
        """
    @property
    def sheets_count(self, /) -> int:
        """
        Sheets, end panels included.
        """
    @property
    def suction_pa(self, /) -> float:
        """
        Outward suction on the skin that joints are checked for, Pa.
        """
    @property
    def tasks(self, /) -> Table:
        """
        Work: name, quantity, unit, labour_h, standing of the time for one unit.
        """
    def to_dict(self, /) -> dict[str, Any]:
        """
        The main numbers and all tables as plain values; None for what is not known.
        """
    @property
    def verdict(self, /) -> str:
        """
        The worst verdict: ``"passes"``, ``"not assessed"``, ``"outside the rule's range"`` or ``"fails"``.
        """
    @property
    def verdict_counts(self, /) -> dict[str, Any]:
        """
        How many checks have each verdict.
        """

@final
class Lap:
    """
    Two sheets joined by one line of rivets. Cannot be changed.

    Args:
        outer: The sheet under the rivet's head.
        inner: The other sheet, or the wall of a post as a sheet.
        rivet: The rivet.
        pitch: Spacing along the line, such as ``"4 1/4 in"``.
        edge: The line to the sheet's edge, such as ``"5/8 in"``.
        panel_edge: The line runs along a panel's edge, so that suction pulls on one side of the head only.

    Raises:
        InputError: A pitch or edge that no riveted line has.
        QuantityError: A quantity without a unit, or with one of another kind.

    Example:
        >>> import raisedbody as rb
        >>> sheet = rb.Sheet(gauge=18, coating="A40", grade="SS33")
        >>> rivet = rb.BlindRivet("6.4 mm", product="ISO 15976")
        >>> lap = rb.Lap(outer=sheet, inner=sheet, rivet=rivet, pitch="4 1/4 in", edge="5/8 in")
        >>> lap.pitch_mm
        107.95
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(cls, /, *, outer: Sheet, inner: Sheet, rivet: BlindRivet, pitch: str | Quantity, edge: str | Quantity, panel_edge: bool = False) -> Lap: ...
    def __reduce__(self, /) -> tuple[Any, ...]: ...
    def __repr__(self, /) -> str: ...
    def check(self, /, shear: str | Quantity | None = None, tension: str | Quantity | None = None, method: str = "EN 1993-1-3") -> Report:
        """
        Checks the lap by one rule set.

        Args:
            shear: Load in the plane of the sheets across the line: of one rivet, such as ``"900 N"``, or of the line,
                such as ``"1.9 N/mm"``. For EN 1993-1-3 a design load (factored), for AISI S100 a service load.
            tension: Load away from the sheets, given like `shear`.
            method: ``"EN 1993-1-3"`` or ``"AISI S100"`` (screw rules, by analogy).

        Returns:
            The report.

        Raises:
            InputError: A negative load, or an unknown method.
            QuantityError: A quantity without a unit, or with one of another kind.

        Example:
            >>> import raisedbody as rb
            >>> sheet = rb.Sheet(gauge=18, coating="A40", grade="SS33")
            >>> rivet = rb.BlindRivet("6.4 mm", product="ISO 15976", hole="17/64 in")
            >>> lap = rb.Lap(outer=sheet, inner=sheet, rivet=rivet, pitch="4 1/4 in", edge="5/8 in")
            >>> report = lap.check(shear="900 N", tension="150 N")
            >>> report.verdict, report.governing.name
            ("outside the rule's range", 'hole')
        """
    @property
    def edge_mm(self, /) -> float:
        """
        The line to the sheet's edge, mm.
        """
    @property
    def inner(self, /) -> Sheet:
        """
        The other sheet.
        """
    @property
    def outer(self, /) -> Sheet:
        """
        The sheet under the rivet's head.
        """
    @property
    def panel_edge(self, /) -> bool:
        """
        The line runs along a panel's edge.
        """
    @property
    def pitch_mm(self, /) -> float:
        """
        Spacing along the line, mm.
        """
    @property
    def rivet(self, /) -> BlindRivet:
        """
        The rivet.
        """
    def to_dict(self, /) -> dict[str, Any]:
        """
        Parts and sizes by name.
        """

@final
class Mass:
    """
    What a raise does to weight, centre of gravity, axle loads and stability. Cannot be changed.

    A pair is the result at the lower and at the upper bound of the height of the centre of gravity, which an empty bus
    seldom tells. None stands for what the plan gives too little for.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, ...]: ...
    def __repr__(self, /) -> str: ...
    @property
    def added_kg(self, /) -> float:
        """
        All that is added, kg.
        """
    @property
    def after_kg(self, /) -> float | None:
        """
        Whole mass after, kg.
        """
    @property
    def axles_after_kg(self, /) -> tuple[float, float] | None:
        """
        Front and rear axle load after, kg.
        """
    @property
    def axles_before_kg(self, /) -> tuple[float, float] | None:
        """
        Front and rear axle load before, kg.
        """
    @property
    def before_kg(self, /) -> float | None:
        """
        Whole mass before, kg.
        """
    @property
    def cg_height_after_mm(self, /) -> tuple[float, float] | None:
        """
        Height of the centre of gravity after, mm: a pair.
        """
    @property
    def cg_height_before_mm(self, /) -> tuple[float, float] | None:
        """
        Height of the centre of gravity before, mm: a pair.
        """
    @property
    def cg_station_after_mm(self, /) -> float | None:
        """
        Centre of gravity after, mm forward of the rear face of the body.
        """
    @property
    def cg_station_before_mm(self, /) -> float | None:
        """
        Centre of gravity before, mm forward of the rear face of the body.
        """
    @property
    def fit_out_kg(self, /) -> float:
        """
        Fit-out, kg.
        """
    @property
    def left_share_after(self, /) -> float | None:
        """
        Share of the mass on the left wheels after.
        """
    @property
    def moved_kg(self, /) -> float:
        """
        All that is moved (the roof), kg.
        """
    @property
    def removed_kg(self, /) -> float:
        """
        All that is removed, kg.
        """
    @property
    def skin_kg(self, /) -> float:
        """
        New skin with its coats, kg.
        """
    @property
    def stability_factor_after(self, /) -> tuple[float, float] | None:
        """
        Static stability factor after: a pair.
        """
    @property
    def stability_factor_before(self, /) -> tuple[float, float] | None:
        """
        Static stability factor before, track / (2 height): a pair.
        """
    @property
    def tilt_after_deg(self, /) -> tuple[float, float] | None:
        """
        Angle at which the rigid body tips after, degrees: a pair.
        """
    @property
    def tilt_before_deg(self, /) -> tuple[float, float] | None:
        """
        Angle at which the rigid body tips before, degrees: a pair. Springs and tyres make the real angle smaller.
        """
    def to_dict(self, /) -> dict[str, Any]:
        """
        The values by name.
        """

@final
class Plan:
    """
    A build plan that was read and found whole: every entry readable, nothing contradictory. Cannot be changed.

    Make one with `Plan.read` or `Plan.from_text`, and variants of it with `replace`. Lengths, masses and loads in a plan
    are text with their unit: ``"4 1/4 in"``, ``"108 mm"``. Plans are equal where their entries are.

    Example:
        >>> import raisedbody as rb
        >>> plan = rb.Plan.read("examples/workshop_bus.toml")
        >>> plan
        Plan(name='Workshop bus')
        >>> plan.evaluate().verdict
        "outside the rule's range"
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __hash__(self, /) -> int: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, ...]: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    def evaluate(self, /) -> Evaluation:
        """
        Works the plan out: layout, masses, checks, order, hours, price. Other threads run meanwhile.

        Returns:
            The evaluation.

        Raises:
            InputError: A catalogue row of the plan's own cannot be used.
        """
    @staticmethod
    def from_text(text: str, folder: str | PathLike[str] = ...) -> Plan:
        """
        Reads a plan from its TOML text.

        Args:
            text: The plan.
            folder: Where catalogue files that the plan names are looked for.

        Returns:
            The plan.

        Raises:
            PlanFileError: A catalogue file cannot be read.
            PlanSyntaxError: The text is not TOML; with line and column.
            InputError: Something in the plan cannot be used; `problems` lists all of it, with line and column.
        """
    @staticmethod
    def json_schema() -> dict[str, Any]:
        """
        The JSON Schema (draft 2020-12) of the plan file, for editors and other programs.

        Example:
            >>> from raisedbody import Plan
            >>> "survey" in Plan.json_schema()["required"]
            True
        """
    @property
    def name(self, /) -> str:
        """
        What this job is called.
        """
    @staticmethod
    def read(path: str | PathLike[str]) -> Plan:
        """
        Reads a plan file; catalogue files that it names are read too and become part of the plan.

        Args:
            path: The file.

        Returns:
            The plan.

        Raises:
            PlanFileNotFoundError: There is no such file (also a `FileNotFoundError`).
            PlanFileError: The file cannot be read (also an `OSError`).
            PlanSyntaxError: The text is not TOML; with line and column.
            InputError: Something in the plan cannot be used; `problems` lists all of it, with line and column.
        """
    def replace(self, changes: Mapping[str, Any] | None = None, /, **entries: "object") -> Plan:
        """
        A plan with some entries changed: mappings are merged entry by entry, everything else is replaced.

        A new gauge takes out an old thickness, and the other way round. The whole plan is validated again.

        Args:
            changes: New entries as a mapping, nested as in the file.
            **entries: New entries by name; ``raise_`` stands for ``raise``. They are applied after `changes`.

        Returns:
            The new plan; this one stays as it is.

        Raises:
            InputError: The plan with the new entries cannot be used; `problems` lists everything that is wrong.
            TypeError: A value of a type that no plan holds.

        Example:
            >>> from raisedbody import Plan
            >>> plan = Plan.read("examples/workshop_bus.toml")
            >>> plan.replace(skin={"gauge": 16}, raise_={"height": "10 in"}).to_dict()["raise"]["height"]
            '10 in'
        """
    def to_dict(self, /) -> dict[str, Any]:
        """
        The entries as written, nested as in the file.
        """
    def to_text(self, /) -> str:
        """
        The plan as TOML text that reads back as an equal plan; comments are not kept.
        """
    def write(self, /, path: str | PathLike[str], overwrite: bool = False) -> None:
        """
        Writes the plan to a file, whole or not at all.

        Args:
            path: The file.
            overwrite: Whether a file of that name is replaced.

        Raises:
            PlanFileExistsError: The file is there and `overwrite` is false (also a `FileExistsError`).
            PlanFileError: The file cannot be written (also an `OSError`).
        """

@final
class Report:
    """
    All checks of one lap by one rule set; `Lap.check` makes it. Cannot be changed. ``report[i]`` is its check i.

    Example:
        >>> import raisedbody as rb
        >>> sheet = rb.Sheet(thickness="1.2 mm", fy="250 MPa", fu="360 MPa")
        >>> rivet = rb.BlindRivet("6.4 mm", shear="6 kN", tension="5 kN", head="13.4 mm", hole="6.5 mm")
        >>> report = rb.Lap(outer=sheet, inner=sheet, rivet=rivet, pitch="50 mm", edge="9.6 mm").check(shear="900 N")
        >>> report.verdict, report.governing.name
        ('passes', 'bearing')
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __getitem__(self, index: SupportsIndex, /) -> Check: ...
    def __len__(self, /) -> int: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, ...]: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def checks(self, /) -> tuple[Check, ...]:
        """
        Every check: strengths first, then the rule's own limits.
        """
    def explain(self, /) -> str:
        """
        Every check as a hand calculation: formula, numbers with units, result, clause, standing.
        """
    @property
    def governing(self, /) -> Check | None:
        """
        The check that decides the verdict.
        """
    @property
    def lap(self, /) -> Lap:
        """
        The lap that was checked.
        """
    @property
    def method(self, /) -> str:
        """
        The rule set: ``"EN 1993-1-3"`` or ``"AISI S100"``.
        """
    @property
    def shear_n(self, /) -> float:
        """
        Load asked of one rivet in the plane of the sheets, N.
        """
    @property
    def table(self, /) -> Table:
        """
        The checks as a table: name, clause, demand, capacity, unit, utilisation, level, verdict, reason, standing.
        """
    @property
    def tension_n(self, /) -> float:
        """
        Load asked of one rivet away from the sheets, N.
        """
    def to_dict(self, /) -> dict[str, Any]:
        """
        Method, verdict, utilisation and checks as plain values.
        """
    @property
    def utilisation(self, /) -> float | None:
        """
        Highest demand over capacity among the strengths; None outside the rule's range or where a value is missing.
        """
    @property
    def verdict(self, /) -> str:
        """
        ``"passes"``, ``"fails"``, ``"outside the rule's range"`` or ``"not assessed"``; only the first is a pass.
        """

@final
class Sheet:
    """
    A sheet as ordered, by gauge and grade, or as measured and certified. Cannot be changed.

    Args:
        gauge: Gauge number; the coating or the metal decides the series.
        thickness: Measured or certified thickness, coating included, such as ``"1.2 mm"``; in place of the gauge.
        coating: Coating designation, such as ``"A40"`` or ``"G90"``.
        grade: Grade, such as ``"SS33"``.
        fy: Yield strength from a certificate or coupon, such as ``"250 MPa"``.
        fu: Tensile strength from a certificate or coupon.

    Raises:
        InputError: Unknown gauge, coating or grade (the nearest known is named); sizes that no sheet has; gauge and
            thickness together, or neither.
        QuantityError: A quantity without a unit, or with one of another kind.

    Example:
        >>> from raisedbody import Sheet
        >>> sheet = Sheet(gauge=18, coating="A40", grade="SS33")
        >>> round(sheet.thickness_mm, 3), sheet.fu_mpa
        (1.311, 310.0)
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(cls, /, *, gauge: SupportsIndex | None = None, thickness: str | Quantity | None = None, coating: str | None = None, grade: str | None = None, fy: str | Quantity | None = None, fu: str | Quantity | None = None) -> Sheet: ...
    def __reduce__(self, /) -> tuple[Any, ...]: ...
    def __repr__(self, /) -> str: ...
    @property
    def areal_mass_kg_m2(self, /) -> float:
        """
        Mass, kg/m2.
        """
    @property
    def base_mm(self, /) -> float:
        """
        Thickness of the metal under the coating, mm.
        """
    @property
    def coating_least_um(self, /) -> float | None:
        """
        Coating on the thinner side that the standard still permits, um; None for a bare sheet.
        """
    @property
    def coating_um(self, /) -> float | None:
        """
        Coating on each side if its least mass is split evenly, um; None for a bare sheet.
        """
    @property
    def design_mm(self, /) -> float:
        """
        Thickness that strengths are worked with, mm: reduced where the gauge's tolerance exceeds 5 %.
        """
    @property
    def fu_mpa(self, /) -> float | None:
        """
        Tensile strength, MPa; None where the grade guarantees none and none is given.
        """
    @property
    def fy_mpa(self, /) -> float | None:
        """
        Yield strength, MPa; None where the grade guarantees none and none is given.
        """
    @property
    def label(self, /) -> str:
        """
        What to call it: ``"18 ga A40 SS33"``.
        """
    @property
    def material(self, /) -> str:
        """
        The metal.
        """
    @property
    def standing(self, /) -> str:
        """
        How its numbers are known, at the weakest.
        """
    @property
    def thickness_mm(self, /) -> float:
        """
        Nominal thickness, coating included, mm.
        """
    def to_dict(self, /) -> dict[str, Any]:
        """
        The values by name, each ending in its unit; None for what is not known.
        """

def catalogue_table(name: str, /) -> Table:
    """
    A table of the catalogue that ships with this package; every row says its source and how far to trust it.

    Args:
        name: ``"gauge"``, ``"material"``, ``"grade"``, ``"coating"``, ``"rivet"``, ``"drill"``, ``"section"``,
            ``"limit"``, ``"corrosivity"`` or ``"default"``.

    Returns:
        The rows; a column of quantities ends in its unit.

    Raises:
        InputError: There is no such table.

    Example:
        >>> import raisedbody as rb
        >>> drills = rb.catalogue_table("drill")
        >>> round(float(drills["diameter_mm"][drills["name"] == "F"][0]), 3)
        6.528
    """

def check_laps(*, outer_mm: ArrayLike, inner_mm: ArrayLike | None = None, outer_fu_mpa: ArrayLike, inner_fu_mpa: ArrayLike | None = None, diameter_mm: ArrayLike, hole_mm: ArrayLike, head_mm: ArrayLike, rivet_shear_n: ArrayLike, rivet_tension_n: ArrayLike, pitch_mm: ArrayLike, edge_mm: ArrayLike, shear_n: ArrayLike | None = None, tension_n: ArrayLike | None = None, panel_edge: bool = False, method: str = "EN 1993-1-3") -> LapChecks:
    """
    Checks many laps at once, on all cores; other Python threads run meanwhile.

    Every argument is a number or an array; they broadcast as NumPy's do. NaN stands for what is not known. A cell that no
    lap can be, or that lies outside the rule's range, gets that verdict and NaN for its utilisation, never an exception.

    Args:
        outer_mm: Design thickness of the sheet under the head, mm.
        inner_mm: Design thickness of the other sheet, mm; the same as `outer_mm` where left out.
        outer_fu_mpa: Tensile strength of the sheet under the head, MPa.
        inner_fu_mpa: Tensile strength of the other sheet, MPa; the same as `outer_fu_mpa` where left out.
        diameter_mm: Nominal rivet diameter, mm.
        hole_mm: Hole, mm.
        head_mm: Head diameter, mm.
        rivet_shear_n: Least shear load of one rivet, N.
        rivet_tension_n: Least tension load of one rivet, N.
        pitch_mm: Spacing along the line, mm.
        edge_mm: The line to the sheet's edge, mm.
        shear_n: Load of one rivet in the plane of the sheets, N, at the level of the method.
        tension_n: Load of one rivet away from the sheets, N.
        panel_edge: The lines run along a panel's edge.
        method: ``"EN 1993-1-3"`` or ``"AISI S100"``.

    Returns:
        Utilisation, governing check and verdict of every cell, in the shape the arguments broadcast to.

    Raises:
        InputError: Arrays that do not broadcast (the first that does not fit is named), or an unknown method.

    Example:
        >>> import raisedbody as rb
        >>> laps = rb.check_laps(
        ...     outer_mm=[[0.9], [1.2]], outer_fu_mpa=360, diameter_mm=4.8, hole_mm=4.9, head_mm=10.1,
        ...     rivet_shear_n=6000, rivet_tension_n=4400, pitch_mm=[10, 50], edge_mm=12, shear_n=900,
        ... )
        >>> laps.verdict.tolist()
        [["outside the rule's range", 'passes'], ["outside the rule's range", 'passes']]
    """

def compare(plans: Mapping[str, Plan], /) -> Comparison:
    """
    Evaluates plans and sets them side by side. Other threads run meanwhile.

    Args:
        plans: The plans, or variants of one, by the name that each gets in the comparison.

    Returns:
        The comparison.

    Raises:
        InputError: There is no plan, or one cannot be evaluated.
        TypeError: Something is not a plan.

    Example:
        >>> import raisedbody as rb
        >>> plan = rb.Plan.read("examples/workshop_bus.toml")
        >>> both = rb.compare({"18 ga": plan, "16 ga": plan.replace(skin={"gauge": 16})})
        >>> both.table["skin.gauge"].tolist()
        ['18', '16']
    """

def inches(length_mm: SupportsFloat | SupportsIndex, /) -> str:
    """
    A length as the shop reads it: in inches to the nearest 1/64, in lowest terms.

    Args:
        length_mm: The length, mm.

    Returns:
        The text.

    Raises:
        InputError: The length is no finite number.

    Example:
        >>> from raisedbody import inches
        >>> inches(107.95)
        '4-1/4 in'
    """

def parse(text: str | Quantity, kind: str, /) -> float:
    """
    Reads a quantity.

    Args:
        text: The quantity with its unit, such as ``"4 1/4 in"``, ``"6 ft 3 1/2 in"``, ``"1.9 N/mm"``.
        kind: What it measures: ``"length"``, ``"area"``, ``"volume"``, ``"mass"``, ``"linear mass"``,
            ``"areal mass"``, ``"density"``, ``"force"``, ``"line load"``, ``"pressure"``, ``"speed"``,
            ``"temperature"``, ``"duration"``, ``"loss rate"`` or ``"ratio"``.

    Returns:
        The number in mm, m2, L, kg, kg/m, kg/m2, kg/m3, N, N/mm, MPa, m/s, degC, h, um/a or as a plain ratio.

    Raises:
        QuantityError: The text is no such quantity; the message shows the place and a correct example.
        InputError: There is no such kind.

    Example:
        >>> from raisedbody import parse
        >>> parse("4 1/4 in", "length")
        107.95
    """
