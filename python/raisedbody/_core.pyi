from _typeshed import Incomplete, SupportsGetItem
from collections.abc import Callable, Iterable, Mapping
from numpy.typing import ArrayLike
from os import PathLike
from raisedbody._core import Corner as Corner2
from raisedbody.laps import LapChecks
from raisedbody.quantity import DataFrame, Quantity
from raisedbody.table import Table
from typing import Any, Final, SupportsFloat, SupportsIndex, final

__all__ = ["__version__", "BarCuts", "Bend", "BlindRivet", "Body", "CapBlank", "Check", "Choice", "Comparison", "Corner", "Coupons", "CurvedBuckling", "Cut", "CutList", "Cuts", "DentComparison", "DiagonalTension", "Drawing", "DrillChoice", "Drilling", "EffectiveSection", "EndCaps", "Evaluation", "Frame", "FrameLoad", "FrameResult", "Frustum", "GalvanicPair", "GroupForces", "HoleLine", "HoleLineFit", "HoleLinePlan", "InterRivet", "Jigs", "Lap", "LengthChoice", "Lift", "Mass", "MeasureUp", "Odds", "Page", "Panel", "PanelBow", "PanelBuckling", "PanelFrequency", "PanelHeat", "Plan", "PlasticBounds", "Quote", "Report", "Reports", "RivetGroup", "RollSetting", "Schedule", "Seam", "SeamBenchmark", "SeamEfficiency", "Section", "Sheet", "SheetCuts", "SolAir", "SpaceFrame", "SpaceFrameResult", "SpaceLoad", "Spacing", "Splices", "Springback", "Squareness", "Sweep", "Task", "TestResult", "Tested", "ThreeRoll", "Turned", "Wander", "_panic", "_panic_place", "cartridges_count", "catalogue_table", "check_laps", "choose_drill", "choose_length", "compare", "duplex_life", "effective_width", "first_year_losses", "hanging_order", "head_clearance", "hole_checks", "inches", "jigs", "layer_lives", "least_bend_radius_mm", "losses_over_years", "paint_durability", "parse", "prying_ratio", "rivet_diameter_checks", "sealant_volume_l", "skin_strips", "sol_air", "spreading_rate_ft2_gal", "spreading_rate_m2_l", "suction_per_rivet_n", "unpainted_allowed", "wander", "wet_film_um", "yearly_cost"]

__version__: Final[str]

@final
class BarCuts:
    """
    Pieces cut from bars at the least price that is found, with a proven bound below which no plan can lie. Cannot be changed.

    A piece longer than every bar is joined from whole bars and a rest. The search takes the same steps on every machine and
    ends by itself; interrupted, or at its time limit, it gives the best plan so far.

    Args:
        bars: Bars, each a mapping as in a plan's ``cutting.tube_bars``: `length`, `price`, and where wanted `count`, `supplier`,
            `cut` (the seller's charge for a cut), `end_trim`.
        pieces: What is needed, each a mapping: `name`, `length` (by the long points where ends are mitred), and where wanted
            `count` and `mitre` (the steeper of both, from a square cut).
        saw: A mapping as in a plan's ``cutting.saw``: `kerf`, `cut_time`.
        labour: Price of an hour of one person: the seller cuts where his charge is below the shop's own time.
        units: ``"inches"`` or ``"metric"`` (also where left out): how lengths are printed.
        time_limit: Stops the search, such as ``"10 s"``; what it has found then may differ from one run to the next.

    Raises:
        InputError: Entries that cannot be used; bars that run out.
        QuantityError: A time limit without a unit.

    Example:
        >>> import raisedbody as rb
        >>> cuts = rb.BarCuts(
        ...     bars=[{"length": "20 ft", "price": "44 USD"}, {"length": "24 ft", "price": "52 USD"}],
        ...     pieces=[{"name": "post", "length": "7 ft 10 in", "count": 6}],
        ...     saw={"kerf": "2 mm"},
        ... )
        >>> cuts.price, cuts.bars["size"].tolist(), cuts.bars["times"].tolist()
        ('104.00 USD', ['7315.2 mm (288 in)'], [2.0])
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(cls, /, *, bars: Iterable[Mapping[str, Any]], pieces: Iterable[Mapping[str, Any]], saw: Mapping[str, Any] | None = None, labour: str | None = None, units: str | None = None, time_limit: str | Quantity | None = None) -> BarCuts: ...
    def __reduce__(self, /) -> tuple[Any, ...]: ...
    def __repr__(self, /) -> str: ...
    def __str__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def bars(self, /) -> Table:
        """
        Bars that are cut alike, a row each: first (number of the first, counted from 1), times, size, supplier, cut_by, price
        (of one), pieces (in the order of cutting), rest_mm (left over behind the last cut).
        """
    def faults(self, /) -> tuple[str, ...]:
        """
        What a checker finds that knows nothing of the search: lengths, kerfs, demand, stock, price. Nothing where all is right.
        """
    @property
    def gap_ratio(self, /) -> float | None:
        """
        How far the price lies above the bound, in parts of the bound; None where the bound is nought and the price is not.
        """
    @property
    def is_proven(self, /) -> bool:
        """
        No plan can cost less.
        """
    @property
    def lower_bound(self, /) -> str:
        """
        No plan costs less than this: proved in whole coins.
        """
    @property
    def price(self, /) -> str:
        """
        Price of the bars, exact, with its currency; a number of bars where they have no prices.
        """
    @property
    def purchases(self, /) -> Table:
        """
        What to buy, or to take from the shop: item, supplier (empty for the shop), count, unit, price (of one).
        """
    def to_dict(self, /) -> dict[str, Any]:
        """
        Numbers and tables as plain values; None for what is not known.
        """

@final
class Bend:
    """
    A bend in sheet: how much it takes, how sharp it may be. Cannot be changed.

    The neutral axis keeps its length; it lies K thicknesses from the inside face. K is your own, or out of the table of the
    metal (Machinery's Handbook, restated by a secondary text), or 0.5 for an inside radius of 20 thicknesses and more (from
    memory). Between table and rule nothing is extrapolated.

    Args:
        thickness: The sheet, such as ``"1.2 mm"``.
        radius: Inside radius, such as ``"0.120 in"``.
        angle: How far it turns: ``"90 deg"`` for a square corner.
        k: Your own K, from a test bend, 0.2 to 0.5; in place of table and rule.
        material: The metal, a name of the catalogue's material table.

    Raises:
        InputError: Sizes that no bend has; an unknown metal; a bend that neither table nor rule covers, without a K.
        QuantityError: A quantity without a unit, or with one of another kind.

    Example:
        >>> import raisedbody as rb
        >>> bend = rb.Bend(thickness="0.060 in", radius="0.120 in", angle="90 deg")
        >>> bend.k, round(bend.allowance_mm / 25.4, 4)
        (0.463, 0.2321)
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(cls, /, *, thickness: str | Quantity, radius: str | Quantity, angle: str | Quantity, k: SupportsFloat | SupportsIndex | None = None, material: str = "carbon steel") -> Bend: ...
    def __reduce__(self, /) -> tuple[Any, ...]: ...
    def __repr__(self, /) -> str: ...
    @property
    def allowance_mm(self, /) -> float:
        """
        Bend allowance, the sheet in the bend, mm: BA = (π/180) A (R + K t).
        """
    @property
    def angle_deg(self, /) -> float:
        """
        How far it turns, degrees.
        """
    def check(self, of: str, /) -> Table:
        """
        The inside radius against the sharpest bend of a grade or of a coating (from memory).

        Args:
            of: A grade such as ``"SS33"``, or ``"zinc coating"`` or ``"zinc-iron coating"``.

        Returns:
            The check, with the columns of `Report.table`; not assessed where nothing is known of that grade in this thickness.

        Example:
            >>> import raisedbody as rb
            >>> bend = rb.Bend(thickness="1.2 mm", radius="1.5 mm", angle="90 deg", k=0.42)
            >>> [str(verdict) for verdict in bend.check("SS33")["verdict"]]
            ['fails']
        """
    @property
    def deduction_mm(self, /) -> float | None:
        """
        Bend deduction, mm: 2 OSSB - BA, what two outside dimensions together exceed the flat by; None from 180 degrees on.
        """
    @property
    def k(self, /) -> float:
        """
        Neutral axis from the inside face, in thicknesses.
        """
    @property
    def outer_strain(self, /) -> float:
        """
        Stretch of the outer face: 1 / (1 + 2 R/t).
        """
    @property
    def radius_mm(self, /) -> float:
        """
        Inside radius, mm.
        """
    @property
    def setback_mm(self, /) -> float | None:
        """
        Outside setback, from the tangent point to where the outside faces would meet, mm: (R + t) tan(A/2); None from 180
        degrees on.
        """
    @property
    def source(self, /) -> str:
        """
        Where K comes from.
        """
    @property
    def standing(self, /) -> str:
        """
        How firmly K is known.
        """
    @property
    def thickness_mm(self, /) -> float:
        """
        Thickness of the sheet, mm.
        """
    def to_dict(self, /) -> dict[str, Any]:
        """
        The values by name, each ending in its unit.
        """

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
        body: Metal of the body, such as ``"steel"``; taken for aluminium, the weaker, where it is not known.
        countersunk: Countersunk head, which no rule set here covers.

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
    def __new__(cls, /, diameter: str | Quantity, *, product: str | None = None, shear: str | Quantity | None = None, tension: str | Quantity | None = None, head: str | Quantity | None = None, hole: str | Quantity | None = None, sealed: bool | None = None, structural: bool | None = None, body: str | None = None, countersunk: bool | None = None) -> BlindRivet: ...
    def __reduce__(self, /) -> tuple[Any, ...]: ...
    def __repr__(self, /) -> str: ...
    @property
    def body(self, /) -> str | None:
        """
        Metal of the body; None where not known.
        """
    @property
    def countersunk(self, /) -> bool:
        """
        Countersunk head.
        """
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
class Body:
    """
    The shape of the body before and after the raise: cross-section, areas, volume, headroom. Cannot be changed.

    The cross-section comes from heights and insets, with the roof in one arc, or from the chain of lines and arcs in the
    plan's ``survey.outline``. Volume and skins are those of a prism: the section runs through from the rear to the front
    face, so that the rounding of end caps is not taken off, and the end faces are no part of the skins.

    Example:
        >>> import raisedbody as rb
        >>> body = rb.Plan.read("examples/workshop_bus.toml").evaluate().body
        >>> round(body.frontal_area_after_m2 - body.frontal_area_before_m2, 3)  # 2.40 m wide, 0.25 m up
        0.6
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, ...]: ...
    def __repr__(self, /) -> str: ...
    @property
    def aisle_headroom_after_mm(self, /) -> float | None:
        """
        Clear height over the edge of the aisle after, floor and ceiling built up, mm.
        """
    @property
    def aisle_headroom_before_mm(self, /) -> float | None:
        """
        Clear height over the edge of the aisle as it stands, mm; None where a side stands in the way.
        """
    @property
    def aisle_mm(self, /) -> float:
        """
        Width of the aisle at whose edge headroom is told, mm.
        """
    @property
    def enclosed_volume_after_m3(self, /) -> float:
        """
        Outside volume above the floor after, m3; sloped ends count by half.
        """
    @property
    def enclosed_volume_before_m3(self, /) -> float:
        """
        Outside volume above the floor before, m3, end caps as if the section ran through to both faces.
        """
    @property
    def features(self, /) -> Table:
        """
        Features of the survey, and the rub rail of a side that has its own: name, kind, side, bottom_mm, top_mm, rear_mm,
        front_mm.
        """
    @property
    def frontal_area_after_m2(self, /) -> float:
        """
        Frontal area after, m2.
        """
    @property
    def frontal_area_before_m2(self, /) -> float:
        """
        Frontal area before, m2, without wheels below the clearance and fittings on the roof.
        """
    def half_width_mm(self, height: str | Quantity, /, *, side: str = "left", raised: bool = False) -> float:
        """
        Distance from the centre line to a side at a height above the ground.

        Args:
            height: Above the ground, such as ``"2 m"``.
            side: ``"left"`` or ``"right"``, facing forward.
            raised: After the raise rather than before it.

        Returns:
            The distance, mm; that of the foot below the outline, 0 above the crown.

        Raises:
            InputError: There is no such side.
            QuantityError: The height has no unit, or one of another kind.

        Example:
            >>> import raisedbody as rb
            >>> body = rb.Plan.read("examples/workshop_bus.toml").evaluate().body
            >>> body.half_width_mm("2 m")
            1200.0
        """
    @property
    def kinks(self, /) -> Table:
        """
        Where the outline changes its direction by more than 1 degree: side, y_mm, z_mm, turn_deg (positive turns inwards,
        going up).
        """
    @property
    def outline_after(self, /) -> Table:
        """
        The cross-section after, where the roof is raised.
        """
    @property
    def outline_before(self, /) -> Table:
        """
        The cross-section before, from the foot of the left side over the crown to that of the right: y_mm (right is
        negative), z_mm. No chord misses its arc by more than 0.5 mm.
        """
    @property
    def pieces(self, /) -> Table:
        """
        Lines and arcs of the cross-section before, from the foot up to the crown: side, kind, ends, radius_mm (NaN for a
        line), length_mm.
        """
    @property
    def roof_skin_m2(self, /) -> float:
        """
        Roof from drip rail to drip rail, m2; the raise does not change it.
        """
    @property
    def side_skin_after_m2(self, /) -> float:
        """
        Both sides up to the drip rail after, m2.
        """
    @property
    def side_skin_before_m2(self, /) -> float:
        """
        Both sides up to the drip rail before, m2, from where the outline begins, openings included.
        """
    @property
    def skirt_mm(self, /) -> float:
        """
        Height above the ground that frontal areas are counted from, mm.
        """
    def to_dict(self, /) -> dict[str, Any]:
        """
        The values and tables by name; None for what is not known.
        """

@final
class CapBlank:
    """
    The blank of a sheet that wraps corners, such as an end cap: its flat, its bend marks, its wedge. Cannot be changed.

    Faces stay where they are and the lower edge is level. A corner whose radius differs at both edges, or that turns to a leaning
    face, is unrolled as the cone that touches both faces, so that both edges run straight over the faces and bend a little in the
    corners. Marks are taped from the good edge: the first end.

    Args:
        runs: Lengths of straight runs along the lower edge and corners in turn, from the good edge on; a straight run first and
            last, such as ``["8 in", rb.Corner("6 in", "90 deg"), "80 in", rb.Corner("6 in", "90 deg"), "8 in"]``.
        thickness: The sheet.
        height: Upright from the lower edge to the upper.
        tape_error: Greatest error of one tape reading.
        leans: How far each straight run's face leans out over the height, one for each; upright where left out.
        k: Your own K for all corners; by table and rule as for `Bend` where left out.
        material: The metal, a name of the catalogue's material table.

    Raises:
        InputError: Runs not in turn; sizes that no sheet has; corners that run too steeply or meet; a K that is not known.
        QuantityError: A quantity without a unit, or with one of another kind.

    Example:
        >>> import raisedbody as rb
        >>> corner = rb.Corner("6 in", "90 deg", top_radius="6 1/8 in")
        >>> cap = rb.CapBlank(["8 in", corner, "80 in", corner, "8 in"], thickness="1.2 mm", height="16 in", tape_error="1 mm")
        >>> round(cap.length_mm[0], 1), round(cap.out_of_square_mm / 25.4, 3)
        (2919.1, 0.107)
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(cls, /, runs: Iterable[str | Quantity | Corner2], *, thickness: str | Quantity, height: str | Quantity, tape_error: str | Quantity, leans: Iterable[str | Quantity] | None = None, k: SupportsFloat | SupportsIndex | None = None, material: str = "carbon steel") -> CapBlank: ...
    def __reduce__(self, /) -> tuple[Any, ...]: ...
    def __repr__(self, /) -> str: ...
    def __str__(self, /) -> str: ...
    @property
    def climb_mm(self, /) -> tuple[float, float]:
        """
        How far a rectangle's lower and upper edge come to hang above the level line at the far end, mm; below nought beneath it.
        """
    @property
    def corners(self, /) -> Table:
        """
        Each corner in the flat: bottom_arc_mm and top_arc_mm (sheet in the bend), developed_angle_deg, bottom_radius_mm and
        top_radius_mm (mean radii of the edges in the flat; NaN where they run straight), bottom_chord_mm, top_chord_mm,
        start_slant_mm and end_slant_mm (lines across).
        """
    @property
    def developed_angle_deg(self, /) -> float:
        """
        How far both edges turn over the whole flat, degrees.
        """
    @property
    def k(self, /) -> tuple[float, ...]:
        """
        K of each corner.
        """
    @property
    def length_mm(self, /) -> tuple[float, float]:
        """
        Developed length of the lower edge and of the upper edge, mm.
        """
    @property
    def lines(self, /) -> Table:
        """
        Ordinates to scribe both edges through, a row for each line across: piece, run (from 0), bottom_x_mm, bottom_y_mm, top_x_mm,
        top_y_mm; x from the good edge along the base line, y up from it.
        """
    @property
    def marks(self, /) -> Table:
        """
        Where each bend starts and ends, taped from the good edge: piece, corner (from 0), place, bottom_mm, top_mm, the same to
        1/64 in as text, bottom_error_mm and top_error_mm (tape and rounding), chained_error_mm (if each mark were taped from the
        one before).
        """
    @property
    def one_radius_past_mm(self, /) -> tuple[float, float]:
        """
        If every corner is rolled to the radius of the first at its lower edge: how far a sheet cut to that length reaches past the
        end of the lower edge and of the upper edge, mm; below nought where it is short. (R - R₀)(2 tan(θ/2) - θ) a corner.
        """
    @property
    def out_of_square_mm(self, /) -> float:
        """
        The wedge, mm: how far the far end would be out of square if the sheet were cut as a rectangle and rolled to cylinders, the
        upper edge beyond the lower; below nought where the lower reaches farther.
        """
    @property
    def rectangle_mm(self, /) -> tuple[float, float]:
        """
        Smallest rectangle with one side on the good edge, mm: along and up.
        """
    @property
    def standing(self, /) -> str:
        """
        How firmly the K of the corners is known, at the weakest.
        """
    def to_dict(self, /) -> dict[str, Any]:
        """
        The values and tables by name; None for what is not known.
        """
    @property
    def trim_mm(self, /) -> tuple[float, float]:
        """
        What a square cut at the farther of both ends leaves to trim at the lower edge and at the upper edge, mm.
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
    def explain(self, /, form: str = "text") -> str:
        """
        The comparison as a hand calculation.

        Args:
            form: ``"text"``, ``"html"`` or ``"latex"``.

        Raises:
            InputError: Another form.
        """
    @property
    def formula(self, /) -> str:
        """
        The formula of the capacity, in the rule's symbols.
        """
    @property
    def level(self, /) -> str:
        """
        The kind of strength: ``"design"``, ``"allowable"``, ``"factored"``, ``"minimum"`` or ``"as stated"``.
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
    @property
    def terms(self, /) -> tuple[tuple[str, float, str], ...]:
        """
        The numbers put into the formula: symbol, value and unit of each; NaN for what is not known.
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
class Choice:
    """
    The combinations of a sweep that no other beats; `Sweep.choose` makes it. Cannot be changed.

    Printed, it lists the options with what keeps each from being better.
    """
    def __copy__(self, /) -> Choice: ...
    def __deepcopy__(self, _memo: Any, /) -> Choice: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __len__(self, /) -> int: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, ...]: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def left_out(self, /) -> dict[str, Any]:
        """
        How many combinations are left out and why: beaten, not known, cannot be, and over each limit.
        """
    def plan(self, option: SupportsIndex, /) -> Plan:
        """
        The whole plan of an option.

        Args:
            option: Its place in the table, from 0.

        Returns:
            The plan.

        Raises:
            InputError: There is no such option.
        """
    @property
    def stops(self, /) -> Table:
        """
        A row for each thing that keeps an option from being better: option (its row in the sweep), number, by (the row that
        has it better, or would, NaN where none has), words.
        """
    @property
    def sweep(self, /) -> Sweep:
        """
        The sweep that it was chosen from.
        """
    @property
    def table(self, /) -> Table:
        """
        A row for each option, best in the first number wanted first: row (in the sweep), the values of each entry, the
        numbers, and stops: what keeps it from being better.
        """
    def to_dict(self, /) -> dict[str, Any]:
        """
        The rows of the table, and what was left out, as plain values; None for what is not known.
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
    def quotes(self, /) -> Table:
        """
        The quotes line by line: line, then a column for each plan by its name with what it pays (0 where it has no such line, NaN
        where that has no price), then for each plan but the first ``difference, NAME``: what it pays more than the first (NaN where
        currencies differ); currency of the first.

        Raises:
            InputError: A plan is called ``line``, ``currency`` or ``difference, ...``.
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
class Corner:
    """
    A corner that a sheet is wrapped round. Cannot be changed.

    Args:
        radius: Inside radius, which is that of the frame: at the lower edge where `top_radius` is given too.
        angle: How far it turns in plan: ``"90 deg"`` for a square corner.
        top_radius: Inside radius at the upper edge, where it differs.

    Raises:
        QuantityError: A quantity without a unit, or with one of another kind.

    Example:
        >>> import raisedbody as rb
        >>> rb.Corner("6 in", "90 deg", top_radius="6 1/8 in").top_radius_mm
        155.575
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(cls, /, radius: str | Quantity, angle: str | Quantity, *, top_radius: str | Quantity | None = None) -> Corner: ...
    def __reduce__(self, /) -> tuple[Any, ...]: ...
    def __repr__(self, /) -> str: ...
    @property
    def angle_deg(self, /) -> float:
        """
        How far it turns, degrees.
        """
    @property
    def radius_mm(self, /) -> float:
        """
        Inside radius at the lower edge, mm.
        """
    @property
    def top_radius_mm(self, /) -> float:
        """
        Inside radius at the upper edge, mm.
        """

@final
class Coupons:
    """
    Like coupons pulled to failure: same sheets, rivet, hole, edge distance, and one and the same way of failing. Cannot be
    changed.

    Args:
        loads: Failure load of each, for one rivet, such as ``["3620 N", "3780 N"]``.
        thicknesses: Measured thickness without coating of the sheet that failed, of every coupon or of none.
        strengths: Measured tensile strength of the same sheet, of every coupon or of none.
        predicted: What the formula under test gives for each coupon's own measured sizes: pools families of unlike
            coupons (EN 1993-1-3 A.6.3.2), in place of thicknesses and strengths.
        ordered_thickness: Nominal thickness without coating that will be built with; needed with `thicknesses`.
        ordered_strength: Guaranteed tensile strength that will be built with; needed with `strengths`.
        ordered_predicted: What the formula gives for the joint that will be built; needed with `predicted`.

    Raises:
        InputError: No load; lists of different lengths; a value out of range or without its ordered one.
        QuantityError: A quantity without a unit, or with one of another kind.

    Example:
        >>> import raisedbody as rb
        >>> coupons = rb.Coupons(["3620 N", "3780 N", "3550 N", "3910 N", "3690 N"])  # invented loads
        >>> design = coupons.characteristic("log-normal").design(gamma_m=1.25)
        >>> round(design.value_n, 1), design.level
        (2351.1, 'design')
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __len__(self, /) -> int: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(cls, /, loads: Iterable[str | Quantity], *, thicknesses: Iterable[str | Quantity] | None = None, strengths: Iterable[str | Quantity] | None = None, predicted: Iterable[str | Quantity] | None = None, ordered_thickness: str | Quantity | None = None, ordered_strength: str | Quantity | None = None, ordered_predicted: str | Quantity | None = None) -> Coupons: ...
    def __reduce__(self, /) -> tuple[Any, ...]: ...
    def __repr__(self, /) -> str: ...
    def characteristic(self, /, distribution: str = "log-normal", scatter: SupportsFloat | SupportsIndex | None = None) -> TestResult:
        """
        Characteristic value (5 % fractile), EN 1990:2002 Annex D, D7.2 (table D1 read at second hand, the rest from memory).

        Args:
            distribution: ``"normal"`` or ``"log-normal"``.
            scatter: Coefficient of variation known beforehand, such as 0.08, not below that of the results; left out, that of
                the results, not below 0.10.

        Raises:
            InputError: Fewer than 3 results of unknown scatter; a coupon beyond the limits of the correction; a normal value
                that is not above nought.
        """
    def characteristic_en_1993_1_3(self, /, eta_k: "SupportsFloat | SupportsIndex" = 0.7) -> TestResult:
        """
        Characteristic value, EN 1993-1-3:2006 A.6.3: mean less k s from 4 results, a reduced mean from fewer.

        Args:
            eta_k: 0.7 to 0.9 by the way of failing, for fewer than 4 results; 0.7 where it is not known.

        Raises:
            InputError: Two or three results more than 10 % from their mean; what `characteristic` raises.
        """
    def design(self, /, distribution: str = "log-normal", scatter: SupportsFloat | SupportsIndex | None = None, eta_d: "SupportsFloat | SupportsIndex" = 1.0) -> TestResult:
        """
        Design value straight from the tests, EN 1990:2002 Annex D, D7.3 (from memory): no partial factor comes on top.

        Args:
            distribution: ``"normal"`` or ``"log-normal"``.
            scatter: Coefficient of variation known beforehand; left out, that of the results, not below 0.10.
            eta_d: Conversion from the test to the structure.

        Raises:
            InputError: Fewer than 4 results of unknown scatter; what `characteristic` raises.
        """
    def nominal_aisi_s100(self, /, connection: str = "not listed") -> TestResult:
        """
        Nominal strength with its factors, AISI S100-16 K2.1 (from memory): the mean of at least 3 tests.

        Args:
            connection: ``"not listed"`` (blind rivets), ``"bolt"``, ``"screw, tilting and bearing"``, ``"screw, other"`` or
                ``"fillet weld"``.

        Raises:
            InputError: Fewer than 3 results, or fewer than 6 where one is more than 15 % from the mean; an unknown connection.
        """

@final
class CurvedBuckling:
    """
    When a curved panel buckles, by two rules side by side. Cannot be changed.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, ...]: ...
    def __repr__(self, /) -> str: ...
    @property
    def flat_mpa(self, /) -> float:
        """
        The panel laid flat, MPa.
        """
    @property
    def high_mpa(self, /) -> float:
        """
        Upper end, MPa: 0.6 of the lower rule, or else the higher rule.
        """
    @property
    def knocked_down(self, /) -> bool:
        """
        Whether theory was knocked down to what tests of thin shells gave.
        """
    @property
    def low_mpa(self, /) -> float:
        """
        Lower end of what is to be expected, MPa: 0.2 of the lower rule where the radius is above 500 thicknesses, not
        below the flat panel; else the lower rule.
        """
    @property
    def redshaw_mpa(self, /) -> float:
        """
        By Redshaw, MPa: σ_f/2 + √(σ_f²/4 + σ_c²).
        """
    @property
    def shell_mpa(self, /) -> float:
        """
        The whole cylinder, MPa: E t / (R √(3 (1 - ν²))).
        """
    @property
    def source(self, /) -> str:
        """
        Where the rules are from.
        """
    @property
    def standing(self, /) -> str:
        """
        How firmly they are known.
        """
    @property
    def timoshenko_mpa(self, /) -> float:
        """
        By Timoshenko, MPa: σ_f + σ_c²/(4 σ_f) up to σ_c = 2 σ_f, then σ_c.
        """
    def to_dict(self, /) -> dict[str, Any]:
        """
        The values by name, each ending in its unit.
        """

@final
class Cut:
    """
    One cut to choose from; `Cuts` holds it, and `Plan.with_cut` takes it over. Cannot be changed.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, ...]: ...
    def __repr__(self, /) -> str: ...
    @property
    def allowed_mm(self, /) -> tuple[float, float] | None:
        """
        Heights between which it may lie as well, mm; None where it is turned down.
        """
    @property
    def cut_mm(self, /) -> float:
        """
        Height above the ground, mm.
        """
    @property
    def ends(self, /) -> str:
        """
        ``"whole roof"``, ``"stepped"`` or ``"sloped"``.
        """
    @property
    def first_post(self, /) -> int:
        """
        Rearmost post that is lengthened, counted from the rear.
        """
    @property
    def labour_h(self, /) -> float | None:
        """
        Hours of one person, all tasks but the cuts of sheets and bars; None where it is turned down.
        """
    @property
    def last_post(self, /) -> int:
        """
        Foremost post that is lengthened.
        """
    @property
    def own(self, /) -> bool:
        """
        It is the plan's own.
        """
    @property
    def place(self, /) -> str:
        """
        Where it passes: ``"through the windows"``, ``"above the windows"``, ...
        """
    @property
    def rank(self, /) -> int | None:
        """
        Its rank from 1, the best; None where it is turned down.
        """
    @property
    def reasons(self, /) -> tuple[str, ...]:
        """
        All that speaks against it; empty where it can be made.
        """
    @property
    def skin_area_m2(self, /) -> float | None:
        """
        New skin on the bus, m2; None where it is turned down.
        """
    @property
    def slope_run_mm(self, /) -> float | None:
        """
        Run of sloped ends, mm; None for others.
        """
    @property
    def splices_count(self, /) -> int | None:
        """
        Joints of inserts with posts; None where it is turned down.
        """
    def to_dict(self, /) -> dict[str, Any]:
        """
        Its row of the table as plain values; None for what is not known.
        """
    @property
    def verdict(self, /) -> str:
        """
        ``"possible"`` or ``"turned down"``.
        """

@final
class CutList:
    """
    What is cut from which sheet and bar; `Evaluation.cut_list` holds it. Cannot be changed.

    Example:
        >>> import raisedbody as rb
        >>> cut = rb.Plan.read("examples/mobile_library.toml").evaluate().cut_list
        >>> cut.inserts.is_proven, cut.sheets.faults()
        (True, ())
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, ...]: ...
    def __repr__(self, /) -> str: ...
    def __str__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def backing(self, /) -> BarCuts | None:
        """
        Bars of tube behind sheet edges; None where there are none.
        """
    @property
    def inserts(self, /) -> BarCuts | None:
        """
        Bars for the pieces that lengthen the posts; None where there are none.
        """
    @property
    def sheets(self, /) -> SheetCuts | None:
        """
        The skin's sheets; None where the plan lists no sheets: then a supplier cuts each blank to size.
        """
    def to_dict(self, /) -> dict[str, Any]:
        """
        Its parts as plain values; None for what there is not.
        """

@final
class Cuts:
    """
    Every cut to choose from for a plan's raise; `Plan.cuts` makes it. Cannot be changed.

    A sequence of `Cut`: those that can be made, best first, then those turned down. Printed, or in a notebook, it shows the
    best, the plan's own, and what turned the others down.

    Example:
        >>> import raisedbody as rb
        >>> cuts = rb.Plan.read("examples/workshop_bus.toml").cuts()
        >>> cuts[0].rank, cuts[0].ends, cuts.own.ends
        (1, 'whole roof', 'sloped')
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __getitem__(self, index: SupportsIndex, /) -> Cut: ...
    def __len__(self, /) -> int: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, ...]: ...
    def __repr__(self, /) -> str: ...
    def __str__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def own(self, /) -> Cut | None:
        """
        The plan's own cut; it has reasons against it where it is turned down here.
        """
    @property
    def ranked_by(self, /) -> str:
        """
        What cuts are ranked by, in words.
        """
    @property
    def slope_run_mm(self, /) -> float:
        """
        Run of the sloped ends among them, mm: the plan's own, or a default.
        """
    @property
    def table(self, /) -> Table:
        """
        A row for each cut: rank (NaN where it is turned down), verdict, reason, cut_mm, place, allowed_low_mm and
        allowed_high_mm (where else it may lie), first_post, last_post, ends, slope_run_mm, stub_below_mm, stub_above_mm,
        splices_count, skin_area_m2, transitions_count, headroom_gained_mm, raised_length_mm, labour_h (without the cuts
        of sheets and bars), labour_h_per_m, undominated, own.
        """
    def to_dict(self, /) -> dict[str, Any]:
        """
        The table's rows as plain values; None for what is not known.
        """
    @property
    def turned_down(self, /) -> dict[str, Any]:
        """
        How many cuts are turned down for each kind of reason; one cut may have several.
        """

@final
class DentComparison:
    """
    One sheet's resistance to dents over another's. Cannot be changed.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, ...]: ...
    def __repr__(self, /) -> str: ...
    @property
    def load_ratio(self, /) -> float:
        """
        Static load that first leaves a dent, over the other sheet's: (f_y/f_y0) (t/t0)².
        """
    @property
    def source(self, /) -> str:
        """
        Where the rules are from.
        """
    @property
    def standing(self, /) -> str:
        """
        How firmly they are known.
        """
    @property
    def stiffness_ratio(self, /) -> float:
        """
        Stiffness against a hand, over the other sheet's: (t/t0)³.
        """
    def to_dict(self, /) -> dict[str, Any]:
        """
        The values by name, each ending in its unit.
        """

@final
class DiagonalTension:
    """
    A buckled web in shear, by NACA TN 2661. Cannot be changed.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, ...]: ...
    def __repr__(self, /) -> str: ...
    @property
    def angle_deg(self, /) -> float:
        """
        Angle of the folds against the flanges, degrees, eq. (30).
        """
    @property
    def critical_mpa(self, /) -> float:
        """
        Stress at which the web buckles, MPa, eq. (32).
        """
    @property
    def flange_mpa(self, /) -> float:
        """
        Stress of the flanges from the folds, MPa, eq. (30b).
        """
    @property
    def flange_rivets_n_mm(self, /) -> float:
        """
        Load of the rivets of web to flange, N/mm.
        """
    @property
    def k(self, /) -> float:
        """
        Diagonal tension factor, eq. (27): 0 unbuckled, 1 all diagonal tension.
        """
    @property
    def shear_mpa(self, /) -> float:
        """
        Nominal shear stress, MPa: S/(h_e t).
        """
    @property
    def source(self, /) -> str:
        """
        Where it is from, and what it was tested on.
        """
    @property
    def standing(self, /) -> str:
        """
        How firmly it is known.
        """
    def to_dict(self, /) -> dict[str, Any]:
        """
        The values by name, each ending in its unit.
        """
    @property
    def upright_effective_length_mm(self, /) -> float:
        """
        Effective length of an upright as a column, mm, eq. (35).
        """
    @property
    def upright_mpa(self, /) -> float:
        """
        Mean stress of an upright, MPa, eq. (30a); compression is below nought.
        """
    @property
    def upright_peak_mpa(self, /) -> float:
        """
        Greatest stress of an upright, MPa.
        """
    @property
    def upright_rivets_n_mm(self, /) -> float:
        """
        Pull that the rivets of web to upright are to hold, N/mm.
        """
    @property
    def web_mpa(self, /) -> float:
        """
        Greatest nominal shear stress of the web, MPa, eq. (33a).
        """

@final
class Drawing:
    """
    A drawing: `Evaluation.drawing` makes it. It shows itself in a notebook. Cannot be changed.

    Args:
        name: What it is asked for by.
        title: What it shows, in words.
        svg: The SVG document.
        dxf: The DXF file of what is cut by it, if any.

    Example:
        >>> import raisedbody as rb
        >>> build = rb.Plan.read("examples/workshop_bus.toml").evaluate()
        >>> blank = build.drawing("blank L-A1")
        >>> blank.title, blank.dxf is not None
        ('blank L-A1', True)
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __hash__(self, /) -> int: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(cls, /, name: str, title: str, svg: str, dxf: str | None = None) -> Drawing: ...
    def __reduce__(self, /) -> tuple[Any, ...]: ...
    def __repr__(self, /) -> str: ...
    def __str__(self, /) -> str: ...
    def _repr_svg_(self, /) -> str: ...
    @property
    def dxf(self, /) -> str | None:
        """
        The DXF file of a blank or a jig, in mm, real size: layers OUTLINE and HOLES are cut, BENDS is marked,
        TEXT says what it is. None for others.
        """
    @property
    def name(self, /) -> str:
        """
        What it is asked for by.
        """
    @property
    def svg(self, /) -> str:
        """
        The SVG document.
        """
    @property
    def title(self, /) -> str:
        """
        What it shows, in words.
        """
    def write(self, /, path: str | PathLike[str], overwrite: bool = False) -> None:
        """
        Writes the drawing to a file, whole or not at all.

        Args:
            path: The file; its ending says what it becomes: ``.svg``, or ``.dxf`` for blanks and jigs.
            overwrite: Whether a file of that name is replaced.

        Raises:
            InputError: Another ending, or ``.dxf`` for a drawing by which nothing is cut.
            PlanFileExistsError: The file is there and `overwrite` is false (also a `FileExistsError`).
            PlanFileError: The file cannot be written (also an `OSError`).
        """

@final
class DrillChoice:
    """
    The drill for a rivet's hole; `choose_drill` makes it. Cannot be changed.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, ...]: ...
    def __repr__(self, /) -> str: ...
    @property
    def broken(self, /) -> tuple[str, ...]:
        """
        Names of the checks that the hole fails, or that it puts outside their range.
        """
    @property
    def drill(self, /) -> str:
        """
        Name of the drill: ``"17/64 in"``, ``"#30"``, ``"F"``, ``"6.5 mm"``.
        """
    @property
    def hole_mm(self, /) -> float:
        """
        The hole, as large as the drill, mm; every real drill cuts a little over its size.
        """
    @property
    def over_least_mm(self, /) -> float:
        """
        The hole is this much wider than the rivet's smallest hole, mm.
        """
    @property
    def over_rivet_mm(self, /) -> float:
        """
        The hole is this much wider than the rivet, mm.
        """
    @property
    def series(self, /) -> str:
        """
        Series of the drill: ``"fraction"``, ``"number"``, ``"letter"`` or ``"metric"``.
        """
    @property
    def table(self, /) -> Table:
        """
        Every rule on the hole, with the columns of `Report.table`.
        """
    def to_dict(self, /) -> dict[str, Any]:
        """
        The values by name, each ending in its unit.
        """

@final
class Drilling:
    """
    What a plan drills: jigs, drilling tables, drill and bits; `Evaluation.drilling` holds it. Cannot be changed.

    Example:
        >>> import raisedbody as rb
        >>> drilling = rb.Plan.read("examples/mobile_library.toml").evaluate().drilling
        >>> drilling.drill, len(drilling.jigs) > 1
        ('17/64 in', True)
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, ...]: ...
    def __repr__(self, /) -> str: ...
    @property
    def bit_uses(self, /) -> Table:
        """
        Pilot holes by part: part (``"sheet"`` or ``"rib"``), holes, bit_holes_least and bit_holes_most (that one bit makes;
        NaN where not known), standing, note.
        """
    @property
    def bits(self, /) -> tuple[int, int] | None:
        """
        Pilot bits of 1/8 in, at least and at most; None where a part's thickness is not one that the catalogue speaks of.
        """
    @property
    def drill(self, /) -> str | None:
        """
        The drill of the rivets' holes; None where none of the catalogue is that large.
        """
    @property
    def drill_mm(self, /) -> float | None:
        """
        Its diameter, mm.
        """
    @property
    def jigs(self, /) -> Jigs:
        """
        The jigs of all lines, and the drilling table of every line.
        """
    def to_dict(self, /) -> dict[str, Any]:
        """
        The values and tables by name; None for what is not known.
        """

@final
class EffectiveSection:
    """
    What is left of a section in bending about x; `Section.effective` makes it. Cannot be changed.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, ...]: ...
    def __repr__(self, /) -> str: ...
    @property
    def area_mm2(self, /) -> float:
        """
        Effective area, mm2.
        """
    @property
    def centroid_mm(self, /) -> float:
        """
        Height of the neutral axis above the outer face on the skin's side, mm.
        """
    @property
    def compressed(self, /) -> str:
        """
        The side that is compressed: ``"away"`` from the skin or ``"skin"``.
        """
    @property
    def fy_mpa(self, /) -> float:
        """
        Yield strength, MPa.
        """
    @property
    def ix_mm4(self, /) -> float:
        """
        Effective second moment about x, mm4.
        """
    @property
    def method(self, /) -> str:
        """
        Whose effective widths.
        """
    @property
    def reduced(self, /) -> Table:
        """
        The walls of `walls` that do not work in full.
        """
    @property
    def section(self, /) -> Section:
        """
        The section before anything is left out.
        """
    @property
    def shift_mm(self, /) -> float:
        """
        How far the neutral axis moved away from the compressed side, mm.
        """
    @property
    def standing(self, /) -> str:
        """
        How its rule is known.
        """
    @property
    def stress_mpa(self, /) -> float:
        """
        Greatest compressive stress, MPa.
        """
    @property
    def sx_compressed_mm3(self, /) -> float:
        """
        Effective modulus at the compressed face, mm3.
        """
    @property
    def sx_mm3(self, /) -> float:
        """
        The smaller of both effective moduli, mm3.
        """
    @property
    def sx_tension_mm3(self, /) -> float:
        """
        Effective modulus at the face in tension, mm3.
        """
    def to_dict(self, /) -> dict[str, Any]:
        """
        The values by name, each ending in its unit.
        """
    @property
    def walls(self, /) -> Table:
        """
        Every wall with compression on it, a row each: how it is held, its width, stresses, slenderness lambda, the part rho
        that works, what is left out, and beside them lambda and rho by the other method under the same stresses.
        """

@final
class EndCaps:
    """
    The sheets that wrap the corners of the raised band; `Evaluation.end_caps` holds them. Cannot be changed.

    Each cap is one sheet, or two that lap in the middle of the end face where one would be longer than can be bought. Marks are
    taped from the good edge. Springback is that of wide sheet with the plan's yield strength.

    Example:
        >>> import raisedbody as rb
        >>> caps = rb.Plan.read("examples/mobile_library.toml").evaluate().end_caps
        >>> [str(piece) for piece in caps.pieces["piece"]]
        ['rear cap', 'front cap, 1 of 2', 'front cap, 2 of 2']
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, ...]: ...
    def __repr__(self, /) -> str: ...
    def __str__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def corners(self, /) -> Table:
        """
        Each corner of each sheet: piece, side, at (lower or upper edge), radius_mm (inside), k, outer_strain (at the sharper edge),
        roll_to_mm (inside radius under load), travel_mm (of the top roll after touching), radius_per_tenth_mm (final radius lost for
        each 0.1 mm more of travel), travel_per_mm, radius_per_mpa_mm (opened for each MPa more of yield strength). NaN where the
        yield strength or the rolls are not in the plan, or do not reach the radius.
        """
    @property
    def lines(self, /) -> Table:
        """
        Ordinates to scribe both edges through, with the columns of `CapBlank.lines`.
        """
    @property
    def marks(self, /) -> Table:
        """
        Where each bend starts and ends, with the columns of `CapBlank.marks`.
        """
    @property
    def notes(self, /) -> tuple[str, ...]:
        """
        What to know.
        """
    @property
    def pieces(self, /) -> Table:
        """
        Each sheet: piece, good_edge (the side of the bus), height_mm, along_mm and up_mm (rectangle to buy), bottom_length_mm and
        top_length_mm (developed edges), out_of_square_mm (the wedge if cut as a rectangle and rolled to cylinders, upper edge beyond
        lower), by_radii_mm (the part of it that unequal radii make), bottom_trim_mm and top_trim_mm (left over by a square cut),
        bottom_climb_mm and top_climb_mm (how far a rectangle's edges hang high at the far end), bottom_one_radius_mm and
        top_one_radius_mm (how far it reaches past each end with every corner rolled to the first one's radius),
        developed_angle_deg, start_straight_mm and end_straight_mm.
        """
    def to_dict(self, /) -> dict[str, Any]:
        """
        The tables and notes by name; None for what is not known.
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
    def backers(self, /) -> Table:
        """
        Framing behind sheet edges that have no structure behind them: behind, side, from_mm (forward of the rear face, or
        left of the middle, round a cap's corners along the sheet), z_mm above the ground (of an upright its middle), length_mm.
        """
    @property
    def blanks(self, /) -> Table:
        """
        Blanks that are cut alike: count, length_mm (along the bus, or across it), height_mm, grain (``"level"``, ``"upright"`` or
        ``"either"``: only then may the blank turn; it is the length of stock sheet), finished_face (``"outside"``, ``"inside"``
        or ``"alike"``), factory_edge (``"lower"``, ``"rear"`` or ``"any"``), sheets (their names).

        Example:
            >>> import raisedbody as rb
            >>> plan = rb.Plan.read("examples/workshop_bus.toml").replace(skin={"finished_face": "outside"})
            >>> next(iter(plan.evaluate().blanks.rows()))["finished_face"]
            'outside'
        """
    @property
    def body(self, /) -> Body:
        """
        Cross-section, areas, volume and headroom at the aisle, before and after.
        """
    @property
    def bows(self, /) -> Table:
        """
        The frames across the bus, a row for each way in which the floor may hold the posts' feet: sway stiffness before and
        after, sway under a gust with the roof's weight, stresses, splice moment, roof load of the school-bus rule. Empty
        where the posts' section is not in the plan.
        """
    @property
    def causes(self, /) -> Table:
        """
        What may turn out otherwise than quoted, as the plan's ``odds`` say, a row for each: cause, of (what it acts on), each, shape,
        then shares of what is quoted: mean, sd, and those that 10, 50 and 90 cases in a hundred do not exceed (p10, p50, p90).
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
    def csv(self, name: str, /) -> str:
        """
        A list as comma-separated values: as the shop reads it, then columns of plain numbers where it has sizes. A spreadsheet
        takes no cell of it for a formula: text that starts like one has an apostrophe before it.

        Args:
            name: One of `lists`.

        Returns:
            Headings and rows, parted by commas; without rows where the plan has nothing of the kind.

        Raises:
            InputError: There is no such list.

        Example:
            >>> import raisedbody as rb
            >>> build = rb.Plan.read("examples/workshop_bus.toml").evaluate()
            >>> build.csv("exits").splitlines()
            ['emergency exits,before,after', 'place not told,2,2']
        """
    @property
    def cut_list(self, /) -> CutList:
        """
        What is cut from which sheet and bar, and how good that is.
        """
    @property
    def details(self, /) -> Table:
        """
        Details that decide where the skin starts to rust: detail (lap, hem, cut edge, drilled hole, old hole, weld), zone,
        category, treat (prime, seal or coat it; else it may stay), advice, quantity with its unit (NaN where none is counted),
        source, standing.

        Example:
            >>> import raisedbody as rb
            >>> details = rb.Plan.read("examples/workshop_bus.toml").evaluate().details
            >>> bool(details["treat"][details["detail"] == "cut edge"].all())
            True
        """
    def drawing(self, name: str, /) -> Drawing:
        """
        A drawing: to scale, with its dimensions, sides and blanks as seen from outside.

        Args:
            name: One of `drawings`.

        Returns:
            The drawing; it shows itself in a notebook.

        Raises:
            InputError: There is no drawing of this name.
        """
    @property
    def drawings(self, /) -> tuple[str, ...]:
        """
        Names of all drawings, for `drawing`: ``"left"``, ``"right"``, ``"rear"``, ``"front"``, ``"cross-section"``,
        ``"supports"``, ``"frame"``, ``"laps left"``, ``"laps right"``, ``"blank "`` with the name of a sheet or panel, ``"line "``
        with that of a rivet line, ``"jig "`` with that of a jig, ``"cut "`` with that of a stock sheet, ``"bars inserts"``,
        ``"bars backing tube"``, ``"schedule"``. What the plan says nothing of has none.
        """
    @property
    def drilling(self, /) -> Drilling:
        """
        Drilling jigs, drilling tables, drill and bits.
        """
    @property
    def effects(self, /) -> Table:
        """
        Mass, centre of gravity, axle loads, stability, crosswind and running cost before and after. Each row carries its
        unit; low and high are the ends of a range of inputs, NaN stands for what is not known. Columns: name, unit,
        before_low, before_high, after_low, after_high, change_low, change_high, standing, note.

        Example:
            >>> import raisedbody as rb
            >>> effects = rb.Plan.read("examples/mobile_library.toml").evaluate().effects
            >>> drag = list(effects["name"]).index("drag")
            >>> bool(effects["after_low"][drag] > effects["before_low"][drag])
            True
        """
    @property
    def end_caps(self, /) -> EndCaps | None:
        """
        The sheets that wrap the corners of the raised band: flats, bend marks, radii to roll to, wedges; None where the plan says
        nothing of them.
        """
    @property
    def end_panels(self, /) -> Table:
        """
        Panels that close the ends of the raised part: id, side, blank sizes, area_m2, middle.
        """
    @property
    def exits(self, /) -> Table:
        """
        Emergency exits by place: place, before, after.
        """
    def explain(self, /) -> str:
        """
        Every check as a hand calculation; of each joint all its checks.
        """
    @property
    def flatness(self, /) -> Table:
        """
        Every panel of the sides, patches and ends between what holds it, in the hottest sun and the deepest cold: panel, part
        ("side", "patch", "end"), side (empty across an end), course (0 for patches and ends), width_mm, height_mm, zone,
        suction_pa and when it pulls, how far the panel bows under that suction, how it lies in the sun ("in tension", "flat",
        "may oil-can", "oil-cans where held"), sun_k (skin over frame since hanging), the difference at which it buckles, bow by
        heat and push across a rivet line, the same for the cold, the tone it drums at. Low and high are the ends of a range:
        edges free to turn to clamped, the frame holding the least to the most; the flat of an end cap's face is held by its
        bends from not at all to wholly. Bow by heat and by suction do not simply add up. NaN and a reason where a panel is
        outside the rules; "not assessed", with what is missing, where its edges are not known.

        Example:
            >>> import raisedbody as rb
            >>> panels = rb.Plan.read("examples/mobile_library.toml").evaluate().flatness
            >>> print(panels["panel"][0], panels["sun"][0])
            L-A P1-P2 in tension
        """
    @property
    def flatness_advice(self, /) -> Table:
        """
        What would keep panels flat, a row for each size and remedy: width_mm, height_mm, panels_count, remedy, the difference
        at which the panel then buckles, its bow in the hottest sun, value_low and value_high with their unit (K to hang warmer,
        mm of spacing or radius), note.
        """
    @property
    def gate(self, /) -> Table:
        """
        The questions before the first cut: entry, question, state, settled, valid_until, note.
        """
    @property
    def hanging_order(self, /) -> Table:
        """
        In which order sheets and end panels are hung: place, sheet, side (empty across the bus), course (1 is the top; NaN for
        an end panel), after (what must hang before it), reason.

        Example:
            >>> import raisedbody as rb
            >>> rb.Plan.read("examples/workshop_bus.toml").evaluate().hanging_order["sheet"].tolist()[2:5]
            ['rear slope', 'L-A1', 'L-A2']
        """
    @property
    def headroom_mm(self, /) -> float:
        """
        Clear height inside when floor and ceiling are built up, mm.
        """
    @property
    def hole_lines(self, /) -> dict[str, Any]:
        """
        The new line over each line of old holes in the plan, by its name.

        Example:
            >>> import raisedbody as rb
            >>> lines = rb.Plan.read("examples/mobile_library.toml").evaluate().hole_lines
            >>> list(lines)
            ['rub rail, left']
        """
    @property
    def joints(self, /) -> Table:
        """
        Every joint by every rule set: kind, zone, lines, pitch_mm, what a millimetre of the line carries in the plane of the
        skin (racking_n_mm, shock_n_mm, temperature_n_mm, line_n_mm all together), suction_pa, shear_n and tension_n of one
        rivet (service loads) with what they mostly come from, method, level, verdict, governing, utilisation.
        """
    @property
    def labour_h(self, /) -> float:
        """
        Hours of one person, all tasks.
        """
    @property
    def laps(self, /) -> Table:
        """
        Every lap: over and under (a sheet, a panel or what stays of the body), kind ("upright", "level", "across"), side,
        post where it stands on one, length_mm, and fault: where water would be led ("" where it runs off).
        """
    @property
    def ledger(self, /) -> Table:
        """
        What the cut goes through, moves or passes by, a row for each thing with the one action it gets. Columns: name, kind,
        relation, action, lengthen_mm, note.
        """
    @property
    def life_cost(self, /) -> Table:
        """
        What a year of the skin costs, least and most, as the plan's `[life]` asks: one row, none without it or without prices.
        """
    @property
    def lift(self, /) -> Lift | None:
        """
        The roof off its posts: supports, braces, steps and the wind at which work stops; None where the plan has no lift.
        """
    @property
    def lines(self, /) -> Table:
        """
        Rivet lines: id, side, kind, ends, length_mm, pitch_mm (the widest on the line), tributary_mm, holes_count,
        old_line: the line of old holes whose plan stands in place of even holes ("" where none).
        """
    @property
    def lists(self, /) -> tuple[str, ...]:
        """
        The names of the lists that `csv` gives and `write_lists` writes, in the order of the work.
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
        What to order: item, supplier (empty where the plan does not say), quantity, unit, note.
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
    def packet(self, /) -> Page:
        """
        The job packet: one page that holds all that the job needs on paper, from the verdicts to the blank records. It stands
        alone, and prints on A4 and on Letter.

        Returns:
            The page.

        Example:
            >>> import raisedbody as rb
            >>> build = rb.Plan.read("examples/mobile_library.toml").evaluate()
            >>> build.packet().name
            'Travelling library, job packet'
        """
    @property
    def paint(self, /) -> Table:
        """
        What each coat takes, in the order in which they go on: coat, side ("inside" with the bare steel of inserts and tube,
        "inserts and tube" where the skin stays bare inside, "outside"), area_m2, film_um dry, wet_film_um, solids_ratio,
        loss_ratio, theoretical_m2_l, practical_m2_l, paint_l with its loss, unit_price and amount (NaN where no price is
        known) in currency, standing, note.

        Example:
            >>> import raisedbody as rb
            >>> paint = rb.Plan.read("examples/workshop_bus.toml").evaluate().paint
            >>> [(str(coat), float(film)) for coat, film in zip(paint["coat"], paint["film_um"])]
            [('primer', 60.0), ('topcoat', 50.0)]
        """
    @property
    def paint_outlook(self, /) -> Table:
        """
        What ISO 12944 says of the paint outside, zone by zone: zone, category, film_um, durability ("low" to "very high",
        "below the lowest", "not tabulated"; "not assessed" where the skin is not hot-dip zinc), from_years and to_years to the
        first major maintenance (NaN where open), from_years_1998 and to_years_1998 (what the same word once stood for),
        standing, note. No number beyond the table is worked out, and none is a guarantee.
        """
    @property
    def pairs(self, /) -> Table:
        """
        Metals in contact: rivet body with skin, mandrel with body, skin with posts and tube, and those of the plan. Columns: name,
        first, second, exposure, index_least_v and index_most_v (difference of anodic indices), limit_v of the exposure,
        gap_least_v and gap_most_v (potentials in sea water apart, over gap_sources_count series), eaten (a metal, ``"may be
        either"`` or ``"neither"``), area_ratio (wetted cathode over anode), areas in words, warning of what the index does not
        see, remedies, verdict by the index, missing (what to write where a pair is not assessed), assumed (the entry whose default
        stands in for a surface), standing.

        Example:
            >>> import raisedbody as rb
            >>> plan = rb.Plan.read("examples/workshop_bus.toml").replace(fastening={"plating": "zinc plating"})
            >>> pairs = plan.evaluate().pairs
            >>> pairs["name"][0].item(), round(pairs["index_most_v"][0].item(), 2), pairs["verdict"][0].item()
            ('rivet body, skin', 0.05, 'passes')
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
    def quote(self, /) -> Quote | None:
        """
        The price in lines, by stage, with its odds and its letter; None where the plan has no prices.
        """
    @property
    def readiness(self, /) -> str:
        """
        What the plan says of itself before the first cut, and what is open.
        """
    @property
    def ready_to_cut(self, /) -> bool:
        """
        Whether every question is settled for the day of the cut and no check stands in the way. No clearance: those who stand
        under the roof give that on the day.

        Example:
            >>> import raisedbody as rb
            >>> rb.Plan.read("examples/workshop_bus.toml").evaluate().ready_to_cut
            False
        """
    @property
    def reminders(self, /) -> Table:
        """
        What the new height touches besides: lamps, labels, notices. Columns: about, text, standing, source.
        """
    @property
    def rivet_lots(self, /) -> Table:
        """
        Rivets by what they go through: sheets_count (new ones), behind, holes_count, grip_mm, length (or code, where the
        catalogue knows the rivet's grips), note, standing.
        """
    @property
    def rivets(self, /) -> int:
        """
        Rivets, one for each hole.
        """
    @property
    def schedule(self, /) -> Schedule | None:
        """
        Who does what on which day; None where the plan has no crew.
        """
    @property
    def seam_policies(self, /) -> Table:
        """
        What each way of choosing seams costs: policy, sheets_count, seams_count, new_seams_count (where the old skin has
        none), seam_length_m, shortest_mm, longest_mm, heaviest_kg, people.
        """
    @property
    def sheets(self, /) -> Table:
        """
        Sheets on the sides: id, side, course (1 is the top), posts, edges and sizes in mm, area_m2, mass_kg, the people to
        lift it, the holes through it, and the edge that shows ("lower", "rear", "any"): there belongs the straight factory edge.
        patch_beside is the door or window that a patch stands beside, empty for any other sheet.
        """
    @property
    def sheets_count(self, /) -> int:
        """
        Sheets, end panels included.
        """
    @property
    def skin_loads(self, /) -> Table:
        """
        Every load on the skins: load, place, case, value, unit.

        Example:
            >>> import raisedbody as rb
            >>> loads = rb.Plan.read("examples/mobile_library.toml").evaluate().skin_loads
            >>> print(loads["place"][0], loads["case"][0], round(loads["value"][0]), loads["unit"][0])
            behind the front edge on the road 1170 Pa
        """
    @property
    def splices(self, /) -> Splices:
        """
        How the inserts nest in the posts, the list they are cut from, and what leaning sides ask.
        """
    @property
    def suction_pa(self, /) -> float:
        """
        Greatest suction on the skin, Pa; `skin_loads` has it by zone.
        """
    @property
    def tasks(self, /) -> Table:
        """
        Work: name, quantity, unit, labour_h, standing of the time for one unit.
        """
    def templates(self, /, *, paper: str = "A4") -> Page:
        """
        Paper templates in full size: every drilling jig, and the bend marks of every end cap, as strips over several pages, each
        with a length to check by a steel rule. Print at 100 %.

        Args:
            paper: ``"A4"`` or ``"Letter"``, lying on its long side.

        Returns:
            The page; a sentence in place of strips where the plan has neither jigs nor caps.

        Raises:
            InputError: Another paper.

        Example:
            >>> import raisedbody as rb
            >>> build = rb.Plan.read("examples/workshop_bus.toml").evaluate()
            >>> build.templates(paper="Letter").name
            'Workshop bus, templates in full size, Letter'
        """
    @property
    def thinned(self, /) -> Table:
        """
        Each joint by each rule set again, with the sheet that rust leaves, without paint: how far the sheet may thin until the
        joint has lost the share of its strength that it may lose (`service.strength_loss`), after how many years, and how much
        of its strength is used after the years wanted (`service.years`).
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
    def write_lists(self, /, folder: str | PathLike[str], overwrite: bool = False) -> None:
        """
        Writes every list into a folder as ``<name>.csv`` (UTF-8), each whole or not at all; the folder is made where it is not there.

        Args:
            folder: The folder.
            overwrite: Whether files of these names are replaced. Where one is there and this is false, none is written.

        Raises:
            PlanFileExistsError: A file is there and `overwrite` is false (also a `FileExistsError`).
            PlanFileError: A file cannot be written (also an `OSError`).
        """

@final
class Frame:
    """
    A plane frame of straight members joined stiffly, by the direct stiffness method. Cannot be changed.

    x runs to the right, y up; moments and rotations are anticlockwise. Members bend and stretch by elementary beam theory.

    Args:
        nodes_mm: Place of each node, an array of two columns, mm.
        members: The two nodes of each member, from 0.
        area_mm2: Area of the members' sections, one for all or one each, mm2.
        second_moment_mm4: Second moment about the axis square to the frame's plane, mm4.
        modulus_mpa: Modulus of elasticity, MPa.
        pinned: Nodes held in place, free to turn.
        fixed: Nodes held in place and against turning.
        sprung_n_mm_rad: Nodes held in place, turning against a spring, N mm/rad.

    Raises:
        InputError: A node, member or support that cannot be (it is named); arrays of another shape.

    Example:
        >>> import raisedbody as rb
        >>> portal = rb.Frame(
        ...     [[0, 0], [0, 1800], [2200, 1800], [2200, 0]], [(0, 1), (1, 2), (2, 3)],
        ...     area_mm2=1e6, second_moment_mm4=[60e3, 40e3, 60e3], modulus_mpa=210e3, pinned=[0, 3],
        ... )
        >>> pushed = portal.solve([rb.FrameLoad.node(1, x_n=1000)])
        >>> float(round(pushed.nodes["x_mm"][1], 1))
        147.9
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(cls, /, nodes_mm: ArrayLike, members: Iterable[tuple[SupportsIndex, SupportsIndex]], *, area_mm2: ArrayLike, second_moment_mm4: ArrayLike, modulus_mpa: ArrayLike, pinned: Iterable[SupportsIndex] = ..., fixed: Iterable[SupportsIndex] = ..., sprung_n_mm_rad: dict[SupportsIndex, SupportsFloat | SupportsIndex] = ...) -> Frame: ...
    def __reduce__(self, /) -> tuple[Any, ...]: ...
    def __repr__(self, /) -> str: ...
    @property
    def freedoms(self, /) -> int:
        """
        Directions in which its nodes can move.
        """
    def solve(self, /, loads: Iterable[FrameLoad], *, second_order: bool = False) -> FrameResult:
        """
        Solves for one load case.

        Args:
            loads: The loads, all acting together.
            second_order: Let the members' axial forces bend them further (P-delta).

        Returns:
            Displacements, reactions and forces.

        Raises:
            InputError: A load that cannot be; a frame that can move without bending, or that buckles under the load.
        """

@final
class FrameLoad:
    """
    A load on a plane frame. Cannot be changed.

    Example:
        >>> from raisedbody import FrameLoad
        >>> FrameLoad.spread(1, y_n_mm=-1.5)
        FrameLoad.spread(1, start=0.0, end=1.0, x_n_mm=0.0, y_n_mm=-1.5)
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, ...]: ...
    def __repr__(self, /) -> str: ...
    @staticmethod
    def node(node: SupportsIndex, *, x_n: "SupportsFloat | SupportsIndex" = 0.0, y_n: "SupportsFloat | SupportsIndex" = 0.0, moment_n_mm: "SupportsFloat | SupportsIndex" = 0.0) -> FrameLoad:
        """
        On a node.

        Args:
            node: Which, from 0.
            x_n: Along x, N.
            y_n: Along y, upwards, N.
            moment_n_mm: Anticlockwise, N mm.
        """
    @staticmethod
    def point(member: SupportsIndex, *, at: SupportsFloat | SupportsIndex, x_n: "SupportsFloat | SupportsIndex" = 0.0, y_n: "SupportsFloat | SupportsIndex" = 0.0) -> FrameLoad:
        """
        At a point of a member.

        Args:
            member: Which, from 0.
            at: Where, in parts of the member's length.
            x_n: Along x, N.
            y_n: Along y, upwards, N.
        """
    @staticmethod
    def spread(member: SupportsIndex, *, start: "SupportsFloat | SupportsIndex" = 0.0, end: "SupportsFloat | SupportsIndex" = 1.0, x_n_mm: "SupportsFloat | SupportsIndex" = 0.0, y_n_mm: "SupportsFloat | SupportsIndex" = 0.0) -> FrameLoad:
        """
        Spread evenly over a member or part of it, per length of the member.

        Args:
            member: Which, from 0.
            start: Where it begins, in parts of the member's length.
            end: Where it ends.
            x_n_mm: Along x, N/mm.
            y_n_mm: Along y, upwards, N/mm.
        """

@final
class FrameResult:
    """
    The answer to one load case of a frame; `Frame.solve` makes it. Cannot be changed.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, ...]: ...
    def __repr__(self, /) -> str: ...
    def at(self, /, member: SupportsIndex, part: SupportsFloat | SupportsIndex) -> dict[str, Any]:
        """
        Forces in a member at a place.

        Args:
            member: Which, from 0.
            part: Where, in parts of its length from the start.

        Returns:
            axial_n (tension above nought), shear_n and moment_n_mm (above nought where the right-hand side of the member's
            run is stretched).

        Raises:
            InputError: No such member, or a place that is not on it.
        """
    @property
    def members(self, /) -> Table:
        """
        Each member's axial force at its start, moments at both ends, and its largest moment with its place.
        """
    @property
    def nodes(self, /) -> Table:
        """
        How each node moves: x_mm, y_mm, turn_rad.
        """
    @property
    def reactions(self, /) -> Table:
        """
        What the ground exerts on each held node: node, x_n, y_n, moment_n_mm.
        """

@final
class Frustum:
    """
    A right cone frustum, or a part of one, and its flat. Cannot be changed.

    Geometry: slant s = √(h² + (R - r)²), arcs s R / |R - r| and s r / |R - r|, angle A |R - r| / s.

    Args:
        bottom_radius: Mean radius of the lower edge: inside radius and half the sheet.
        top_radius: Mean radius of the upper edge.
        height: Upright height.
        angle: How far it goes round: ``"360 deg"`` for the whole.

    Raises:
        InputError: Sizes that no frustum has; equal radii, which make a cylinder.
        QuantityError: A quantity without a unit, or with one of another kind.

    Example:
        >>> import raisedbody as rb
        >>> cone = rb.Frustum(bottom_radius="300 mm", top_radius="200 mm", height="500 mm", angle="360 deg")
        >>> round(cone.slant_mm, 2), round(cone.bottom_arc_mm, 2), round(cone.developed_angle_deg, 2)
        (509.9, 1529.71, 70.6)
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(cls, /, *, bottom_radius: str | Quantity, top_radius: str | Quantity, height: str | Quantity, angle: str | Quantity) -> Frustum: ...
    def __reduce__(self, /) -> tuple[Any, ...]: ...
    def __repr__(self, /) -> str: ...
    @property
    def bottom_arc_mm(self, /) -> float:
        """
        Radius of the lower edge in the flat, mm.
        """
    @property
    def bottom_chord_mm(self, /) -> float:
        """
        Chord of the lower edge in the flat, mm.
        """
    @property
    def developed_angle_deg(self, /) -> float:
        """
        Angle of the flat, degrees.
        """
    def ordinates(self, /, parts: "SupportsIndex" = 12) -> Table:
        """
        Ordinates to scribe both edges through.

        Args:
            parts: Equal parts of the angle, 1 to 1000.

        Returns:
            A row for each line across: bottom_x_mm, bottom_y_mm, top_x_mm, top_y_mm; x from the middle, y from the chord of the
            lower edge towards the upper edge.

        Raises:
            InputError: Parts outside 1 to 1000.
        """
    @property
    def slant_mm(self, /) -> float:
        """
        Along the cone, mm.
        """
    def to_dict(self, /) -> dict[str, Any]:
        """
        The values by name, each ending in its unit.
        """
    @property
    def top_arc_mm(self, /) -> float:
        """
        Radius of the upper edge in the flat, mm.
        """
    @property
    def top_chord_mm(self, /) -> float:
        """
        Chord of the upper edge in the flat, mm.
        """

@final
class GalvanicPair:
    """
    Two metals in contact: whether the anodic index permits it, which is eaten, what the areas do. Cannot be changed.

    Surfaces count: the plating, not the metal under it. Sources differ, so that potentials are ranges over the series, each
    compared within itself; where sources disagree on which metal is eaten, it may be either.

    Args:
        first: A metal or plating of the table ``"galvanic_metal"``, such as ``"zinc plating"``; after a stainless steel
            ``", active"`` or ``", passive"`` where its state is certain.
        second: The other.
        exposure: ``"harsh"`` (outdoors, damp, salt), ``"normal"`` or ``"controlled"``.
        area_first: Surface of the first that gets wet, such as ``"126 mm2"``; goes with `area_second`.
        area_second: Surface of the second that gets wet.
        fastener: The first is a fastener, small beside the second, where the areas are not known.

    Raises:
        InputError: An unknown metal (the nearest is named) or exposure; areas that no contact has, or only one of them.
        QuantityError: A quantity without a unit, or with one of another kind.

    Example:
        >>> import raisedbody as rb
        >>> pair = rb.GalvanicPair("aluminium", "carbon steel", fastener=True)
        >>> pair.eaten, pair.verdict, pair.gap_v
        ('aluminium', 'passes', (0.03, 0.4))
        >>> pair.warning
        'the index says nothing of areas: small anode in a large cathode, bad: the fastener is eaten'
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(cls, /, first: str, second: str, *, exposure: str = "harsh", area_first: str | Quantity | None = None, area_second: str | Quantity | None = None, fastener: bool = False) -> GalvanicPair: ...
    def __reduce__(self, /) -> tuple[Any, ...]: ...
    def __repr__(self, /) -> str: ...
    @property
    def area_ratio(self, /) -> float | None:
        """
        Wetted cathode area over wetted anode area; None where areas or anode are not known.
        """
    @property
    def area_sources(self, /) -> tuple[str, str, str]:
        """
        Where what the areas do is from.
        """
    @property
    def areas(self, /) -> str:
        """
        What the areas do, in words.
        """
    @property
    def check(self, /) -> Table:
        """
        The index against its limit, with the columns of `Report.table`.
        """
    @property
    def eaten(self, /) -> str:
        """
        The metal that is eaten, ``"may be either"`` or ``"neither"``.
        """
    def explain(self, /, form: str = "text") -> str:
        """
        The comparison with the limit as a hand calculation.

        Args:
            form: ``"text"``, ``"html"`` or ``"latex"``.

        Raises:
            InputError: Another form.
        """
    @property
    def exposure(self, /) -> str:
        """
        How they are exposed.
        """
    @property
    def first(self, /) -> str:
        """
        The first surface, by its name in the catalogue.
        """
    @property
    def gap_sources(self, /) -> int:
        """
        Series behind `gap_v`.
        """
    @property
    def gap_v(self, /) -> tuple[float, float] | None:
        """
        Potentials in sea water apart, least and greatest over all series, V; None where no series has both.
        """
    @property
    def index_difference_v(self, /) -> tuple[float, float] | None:
        """
        Difference of anodic indices, least and greatest, V; None where an index is missing.
        """
    @property
    def limit_v(self, /) -> float:
        """
        Limit of the exposure, V.
        """
    @property
    def remedies(self, /) -> Table:
        """
        What to do, the most urgent first: text, source, standing.

        Example:
            >>> import raisedbody as rb
            >>> pair = rb.GalvanicPair("copper", "hot-dip zinc", fastener=True)
            >>> pair.remedies["text"][0].item()
            'isolate: sleeve and washers, or tape between, that neither conduct nor soak up water'
        """
    @property
    def second(self, /) -> str:
        """
        The second.
        """
    @property
    def sources(self, /) -> Table:
        """
        What each source says: series, second_over_first_least_v and second_over_first_most_v (NaN for an index or an order), eaten
        ("" where it puts them level), source, standing.
        """
    @property
    def standing(self, /) -> str:
        """
        The weakest standing of all that went in.
        """
    def to_dict(self, /) -> dict[str, Any]:
        """
        The values by name, each ending in its unit, and the rows of `sources` and `remedies`; None for what is not known.
        """
    @property
    def verdict(self, /) -> str:
        """
        By the index: ``"passes"``, ``"fails"`` or ``"not assessed"``. A pass says nothing of areas.
        """
    @property
    def warning(self, /) -> str | None:
        """
        What the index does not see; None where there is nothing to be warned of.
        """

@final
class GroupForces:
    """
    How a group shares a load out; `RivetGroup.elastic` makes it. Cannot be changed.

    Example:
        >>> import raisedbody as rb
        >>> ring = rb.RivetGroup([("0.1 m", "0 mm"), ("0 mm", "0.1 m"), ("-0.1 m", "0 mm"), ("0 mm", "-0.1 m")])
        >>> ring.elastic(y="5 kN", at=("200 mm", "0 mm"))
        <GroupForces of 4 rivets: 3750 N on rivet 0 at most>
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, ...]: ...
    def __repr__(self, /) -> str: ...
    @property
    def centroid_mm(self, /) -> tuple[float, float]:
        """
        Centroid of the stiffnesses, x and y, mm.
        """
    @property
    def group(self, /) -> RivetGroup:
        """
        The group.
        """
    @property
    def moment_n_mm(self, /) -> float:
        """
        Moment of the load about the centroid, anticlockwise, N mm.
        """
    @property
    def table(self, /) -> Table:
        """
        A row for each rivet: index, place, its share of the force (primary) and of the moment (secondary), resultant.
        """
    def to_dict(self, /) -> dict[str, Any]:
        """
        Centroid, moment, the worst rivet and the forces as plain values.
        """
    @property
    def worst(self, /) -> int:
        """
        Which rivet is loaded most, from 0; the first where several are equal.
        """
    @property
    def worst_n(self, /) -> float:
        """
        Force on the rivet that is loaded most, N.
        """

@final
class HoleLine:
    """
    A line of old rivet holes as measured, and what a new line over them has to keep. Cannot be changed.

    Places are told along the line from any mark, and off a string, chalk line or long rule set beside it.

    Args:
        holes: Each old hole in order, as a pair: along the line, and off the string, above nought towards the edge.
        spoilt: Holes that are torn, worn oval or too large, by index: they take no rivet and say nothing of the line.
        along_error: Standard error of a place along the line.
        off_error: Standard error of a distance off the string; one for all, or one for each hole.
        old_metal: ``"stays"`` where the old holes stay in sight, so that each is used again or plugged; ``"covered"`` where
            they vanish under new sheet and guide the drill from inside.
        edge: The sheet's edge off the string, where there is one.
        edge_error: Standard error of that; that of the holes, the largest, where left out.
        least_edge: Least distance from a hole's middle to the edge.
        start: Where the new line starts; a hole stands there.
        end: Where it ends; a hole stands there.
        end_play: How far from an end an old hole may be and still be the end's hole.
        pitch: Spacing that an even line has.
        least_pitch: Smallest spacing.
        most_pitch: Largest spacing.
        clearance: Metal left between a new hole and an old one that is not used.
        hole: Diameter of the holes, old and new.

    Raises:
        InputError: Fewer than two sound holes; holes out of order; an edge without its least distance; lengths that no line
            has, or that exclude each other.
        QuantityError: A quantity without a unit, or with one of another kind.

    Example:
        >>> import raisedbody as rb
        >>> line = rb.HoleLine(
        ...     [("0 mm", "0.2 mm"), ("98 mm", "-1.1 mm"), ("171 mm", "0.9 mm"), ("301 mm", "-0.3 mm"), ("400 mm", "0.4 mm")],
        ...     along_error="0.5 mm", off_error="0.3 mm", old_metal="stays", start="0 mm", end="400 mm", end_play="3 mm",
        ...     pitch="100 mm", least_pitch="40 mm", most_pitch="130 mm", clearance="6 mm", hole="6.5 mm",
        ... )
        >>> line.plan(spacing_worth="40 mm", jump_worth="3 mm", plug_worth=1)
        <HoleLinePlan: 5 holes, 0 new, 0 to plug>
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __len__(self, /) -> int: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(cls, /, holes: Iterable[tuple[str | Quantity, str | Quantity]], *, spoilt: Iterable[SupportsIndex] | None = None, along_error: str | Quantity, off_error: str | Quantity | Iterable[str | Quantity], old_metal: str, edge: str | Quantity | None = None, edge_error: str | Quantity | None = None, least_edge: str | Quantity | None = None, start: str | Quantity, end: str | Quantity, end_play: str | Quantity, pitch: str | Quantity, least_pitch: str | Quantity, most_pitch: str | Quantity, clearance: str | Quantity, hole: str | Quantity) -> HoleLine: ...
    def __reduce__(self, /) -> tuple[Any, ...]: ...
    def __repr__(self, /) -> str: ...
    @property
    def along_error_mm(self, /) -> float:
        """
        Standard error of a place along the line, mm.
        """
    @property
    def clearance_mm(self, /) -> float:
        """
        Metal left between a new hole and an old one that is not used, mm.
        """
    @property
    def edge_error_mm(self, /) -> float | None:
        """
        Standard error of the edge's place, mm; None where there is no edge.
        """
    @property
    def edge_mm(self, /) -> float | None:
        """
        The edge off the string, mm; None where there is none.
        """
    @property
    def end_mm(self, /) -> float:
        """
        Where the new line ends, mm along.
        """
    @property
    def end_play_mm(self, /) -> float:
        """
        How far from an end an old hole may be and still be the end's hole, mm.
        """
    def fit(self, /) -> HoleLineFit:
        """
        The true line through the sound holes, by least squares weighted with the measuring error.

        Returns:
            The line with its errors, the waviness, and every hole against it.

        Raises:
            InputError: The line leans more than 1 in 10 against its string.

        Example:
            >>> import raisedbody as rb
            >>> off = ["0.2 mm", "-0.1 mm", "0.4 mm", "0.1 mm", "0.3 mm"]
            >>> line = rb.HoleLine(
            ...     [(f"{500 * i} mm", off) for i, off in enumerate(off)],
            ...     along_error="0.5 mm", off_error="0.3 mm", old_metal="stays", start="0 mm", end="2 m", end_play="3 mm",
            ...     pitch="100 mm", least_pitch="40 mm", most_pitch="130 mm", clearance="6 mm", hole="6.5 mm",
            ... )
            >>> fit = line.fit()
            >>> round(fit.slope, 7), round(fit.at_mm("0 mm"), 3), round(fit.peak_mm, 2)
            (8e-05, 0.1, 0.24)
        """
    @property
    def hole_mm(self, /) -> float:
        """
        Diameter of the holes, mm.
        """
    @property
    def holes(self, /) -> Table:
        """
        The old holes: along_mm, off_mm, off_error_mm (one standard error), spoilt.
        """
    @property
    def least_edge_mm(self, /) -> float | None:
        """
        Least distance from a hole's middle to the edge, mm; None where there is no edge.
        """
    @property
    def least_pitch_mm(self, /) -> float:
        """
        Smallest spacing, mm.
        """
    @property
    def most_pitch_mm(self, /) -> float:
        """
        Largest spacing, mm.
        """
    @property
    def old_metal(self, /) -> str:
        """
        ``"stays"`` or ``"covered"``.
        """
    @property
    def pitch_mm(self, /) -> float:
        """
        Spacing that an even line has, mm.
        """
    def plan(self, /, *, spacing_worth: str | Quantity, jump_worth: str | Quantity, plug_worth: SupportsFloat | SupportsIndex) -> HoleLinePlan:
        """
        The best new line: exactly the one of least cost among all that keep pitches, edge distance and clearance.

        Between old holes that follow each other, new ones stand evenly on the fitted line. Cost, in new holes: new holes +
        plug_worth × plugs + the sum over all spaces of ((spacing − pitch) / spacing_worth)² + (jump / jump_worth)², where a jump
        is the change of the distance off the line from hole to hole.

        Args:
            spacing_worth: One space so much off the pitch is as bad as one more new hole: small for even spacing, large for few
                new holes and plugs.
            jump_worth: One jump so high is as bad as one more new hole: small for a straight line.
            plug_worth: One plug is as bad as so many new holes; without effect where the old metal is covered.

        Returns:
            Which old holes to use, which to plug, where new ones go.

        Raises:
            InputError: An end that can have no hole; a gap that no pitch can serve: which, and by how much; weights out of
                range.
            QuantityError: A quantity without a unit, or with one of another kind.
        """
    @property
    def start_mm(self, /) -> float:
        """
        Where the new line starts, mm along.
        """
    def to_dict(self, /) -> dict[str, Any]:
        """
        The values and holes by name; None for what is not known.
        """

@final
class HoleLineFit:
    """
    The true line through old holes; `HoleLine.fit` makes it. Cannot be changed.

    Errors are those of measuring, one standard deviation each: the line through the holes as they truly are lies within
    them. That the holes wander is told by the waviness.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, ...]: ...
    def __repr__(self, /) -> str: ...
    def at_mm(self, /, along: str | Quantity) -> float:
        """
        Place of the fitted line off the string, mm.

        Args:
            along: Where along the line.

        Raises:
            InputError: A place that no line has.
            QuantityError: A quantity without a unit, or with one of another kind.
        """
    @property
    def chi_square(self, /) -> float:
        """
        Sum of the squares of departures over measuring errors.
        """
    @property
    def covariance(self, /) -> tuple[tuple[float, float], tuple[float, float]]:
        """
        Place and slope of the line at nought along, as ((mm², mm), (mm, 1)): their covariance.
        """
    def error_at_mm(self, /, along: str | Quantity) -> float:
        """
        Standard error of the fitted line's place, mm.

        Args:
            along: Where along the line.

        Raises:
            InputError: A place that no line has.
            QuantityError: A quantity without a unit, or with one of another kind.
        """
    @property
    def freedoms(self, /) -> int:
        """
        Sound holes beyond the two that a line needs.
        """
    @property
    def line(self, /) -> HoleLine:
        """
        The line of holes that was fitted.
        """
    @property
    def nearest_edge(self, /) -> int | None:
        """
        Index of the sound hole that leaves least to the edge with 95 %; None where there is no edge.
        """
    @property
    def peak_mm(self, /) -> float:
        """
        The largest distance of a sound hole off the line, mm.
        """
    @property
    def rms_mm(self, /) -> float:
        """
        Waviness: root of the mean square of the sound holes' distances off the line, mm.
        """
    @property
    def slope(self, /) -> float:
        """
        Off-line distance gained per distance along.
        """
    @property
    def slope_error(self, /) -> float:
        """
        Standard error of the slope.
        """
    @property
    def strays(self, /) -> tuple[int, ...]:
        """
        Indices of holes too far off to belong to the others: measured wrong, or to be marked as spoilt. Chance alone names
        one in 5 of 100 lines.
        """
    @property
    def table(self, /) -> Table:
        """
        Every hole against the line: along_mm, off_mm, off_line_mm (above nought towards the edge), error_mm (of that, from
        measuring), edge_mm (left to the edge, as measured), edge_error_mm, edge_least_mm (with 95 %), edge_error_allowed_mm
        (the largest error that still keeps the least edge distance with 95 %; below nought none does), spoilt, stray. NaN
        where there is no edge.
        """
    def to_dict(self, /) -> dict[str, Any]:
        """
        The values and the table by name; None for what is not known.
        """
    @property
    def wander_mm(self, /) -> float | None:
        """
        Waviness that the measuring error does not explain, mm; None with two sound holes.
        """
    @property
    def worst(self, /) -> int:
        """
        Index of the sound hole farthest off the line.
        """

@final
class HoleLinePlan:
    """
    The best new line over old holes; `HoleLine.plan` makes it. Cannot be changed.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, ...]: ...
    def __repr__(self, /) -> str: ...
    @property
    def cost(self, /) -> float:
        """
        The least cost, in new holes.
        """
    @property
    def edge_least_mm(self, /) -> float | None:
        """
        What its holes leave to the edge at least with 95 %, mm; None where there is no edge.
        """
    @property
    def holes(self, /) -> Table:
        """
        Every hole of the new line: along_mm, along (to 1/64 in), off_mm, off_line_mm, old (index of the old hole; NaN for a
        new one), new, pitch_mm (from the hole before), edge_mm and edge_least_mm (with 95 %; NaN where there is no edge).
        """
    def jigs(self, /, *, tolerance: str | Quantity) -> Jigs:
        """
        Drilling jigs for the gaps with new holes, each indexed on the old holes or ends beside it.

        Args:
            tolerance: How far a hole may be from its jig's in any gap that the jig serves.

        Returns:
            The jigs, and the drilling table of this line.

        Raises:
            InputError: A tolerance out of range.
            QuantityError: A quantity without a unit, or with one of another kind.
        """
    @property
    def jump_most_mm(self, /) -> float:
        """
        The largest jump off the line from hole to hole, mm.
        """
    @property
    def jump_rms_mm(self, /) -> float:
        """
        Root of the mean square of the jumps off the line from hole to hole, mm.
        """
    @property
    def jump_worth_mm(self, /) -> float:
        """
        One jump so high is as bad as one more new hole, mm.
        """
    @property
    def line(self, /) -> HoleLine:
        """
        The line of old holes.
        """
    @property
    def new_count(self, /) -> int:
        """
        New holes.
        """
    @property
    def old_holes(self, /) -> Table:
        """
        What becomes of each old hole: along_mm, off_mm, spoilt, fate (``"use again"``, ``"plug"``, ``"leave, covered"`` or
        ``"beyond the stretch"``).
        """
    @property
    def pitch_least_mm(self, /) -> float:
        """
        Smallest spacing of the new line, mm.
        """
    @property
    def pitch_most_mm(self, /) -> float:
        """
        Largest spacing of the new line, mm.
        """
    @property
    def pitch_rms_mm(self, /) -> float:
        """
        Root of the mean square of spacing less pitch, mm.
        """
    @property
    def plug_count(self, /) -> int:
        """
        Old holes to plug.
        """
    @property
    def plug_worth(self, /) -> float:
        """
        One plug is as bad as so many new holes.
        """
    @property
    def spacing_worth_mm(self, /) -> float:
        """
        One space so much off the pitch is as bad as one more new hole, mm.
        """
    def to_dict(self, /) -> dict[str, Any]:
        """
        The values and tables by name; None for what is not known.
        """
    @property
    def used_count(self, /) -> int:
        """
        Old holes that are used again.
        """

@final
class InterRivet:
    """
    A sheet that is pressed along a riveted line and bulges between rivets. Cannot be changed.

    The formula is aircraft practice, from memory. Wrinkling, which drags the flange along, is not covered.

    Args:
        thickness: The sheet, such as ``"1.2 mm"``.
        fy: Yield strength in compression, such as ``"350 MPa"``; caps the stress.
        modulus: Modulus of elasticity, such as ``"205 GPa"``; that of carbon steel where left out, as an assumption.
        fixity: How the rivets hold the sheet: ``"flat head"``, ``"spot weld"``, ``"round head"``,
            ``"countersunk tension"``, ``"countersunk shear"`` or ``"hollow blind"``; the last, an assumption, where it,
            `coefficient` and `effective_length` are left out.
        coefficient: Your own coefficient of the column formula in place of `fixity`: 1 is hinged, 4 is clamped.
        effective_length: Effective length in parts of the pitch, K, in place of `fixity`: the coefficient is 1 / K².
        poisson: Poisson's ratio, for a sheet that bends as a wide plate; None for a strip free to narrow.

    Raises:
        InputError: An unknown fixity; more than one of fixity, coefficient and effective length; sizes or strengths that
            no sheet has.
        QuantityError: A quantity without a unit, or with one of another kind.

    Example:
        >>> from raisedbody import InterRivet
        >>> line = InterRivet(thickness="1.2 mm", fy="350 MPa", modulus="205 GPa", fixity="round head")
        >>> round(line.stress_mpa("50 mm"), 1)
        320.2
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(cls, /, *, thickness: str | Quantity, fy: str | Quantity, modulus: str | Quantity | None = None, fixity: str | None = None, coefficient: SupportsFloat | SupportsIndex | None = None, effective_length: SupportsFloat | SupportsIndex | None = None, poisson: "SupportsFloat | SupportsIndex | None" = 0.3) -> InterRivet: ...
    def __reduce__(self, /) -> tuple[Any, ...]: ...
    def __repr__(self, /) -> str: ...
    @property
    def coefficient(self, /) -> float:
        """
        The coefficient of the column formula: 1 is hinged, 4 is clamped.
        """
    def elastic_mpa(self, /, pitch: str | Quantity) -> float:
        """
        Elastic buckling stress between rivets, MPa, as if the sheet never yielded.

        Args:
            pitch: Spacing of the rivets.

        Raises:
            InputError: A pitch that no riveted line has.
            QuantityError: A quantity without a unit, or with one of another kind.
        """
    @property
    def fixity(self, /) -> str:
        """
        How the rivets hold the sheet; ``"own coefficient"`` or ``"effective length"`` where a number is given.
        """
    @property
    def fy_mpa(self, /) -> float:
        """
        Yield strength, MPa.
        """
    @property
    def modulus_mpa(self, /) -> float:
        """
        Modulus of elasticity, MPa.
        """
    def pitch_mm(self, /, stress: str | Quantity) -> float | None:
        """
        The largest pitch at which a stress does not buckle the sheet, mm.

        Args:
            stress: Compressive stress in the sheet.

        Returns:
            The pitch; None where the stress is above yield, so that no pitch helps.

        Raises:
            InputError: A stress that is none.
            QuantityError: A quantity without a unit, or with one of another kind.

        Example:
            >>> from raisedbody import InterRivet
            >>> line = InterRivet(thickness="1.2 mm", fy="350 MPa", modulus="205 GPa", fixity="round head")
            >>> round(line.pitch_mm("320.2 MPa"), 1), line.pitch_mm("360 MPa")
            (50.0, None)
        """
    @property
    def poisson(self, /) -> float | None:
        """
        Poisson's ratio; None for a strip free to narrow.
        """
    @property
    def source(self, /) -> str:
        """
        Where the coefficient comes from, and the modulus where it was left out.
        """
    @property
    def standing(self, /) -> str:
        """
        How firmly the stress is known, at the weakest: the formula is from memory, the coefficient may be weaker.
        """
    def stress_mpa(self, /, pitch: str | Quantity) -> float:
        """
        Buckling stress between rivets, MPa: elastic, at most the yield strength.

        Near yield it is a little high: real sheet softens before it.

        Args:
            pitch: Spacing of the rivets.

        Raises:
            InputError: A pitch that no riveted line has.
            QuantityError: A quantity without a unit, or with one of another kind.
        """
    @property
    def thickness_mm(self, /) -> float:
        """
        Thickness of the sheet, mm.
        """
    def to_dict(self, /) -> dict[str, Any]:
        """
        The values by name, each ending in its unit; None for what is not known.
        """

@final
class Jigs:
    """
    Drilling jigs, one for each set of like gaps; `jigs`, `HoleLinePlan.jigs` and `Drilling.jigs` make them. Cannot be
    changed.

    Each hole is rounded from its true place, so that rounding never comes to more than 1/128 in or 0.05 mm.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __len__(self, /) -> int: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, ...]: ...
    def __repr__(self, /) -> str: ...
    @property
    def gaps(self, /) -> Table:
        """
        The gaps that each jig serves: jig, line, from_mm, length_mm, spaces, departure_mm (how far one of its holes or its end
        is from the jig's at most).
        """
    @property
    def holes(self, /) -> Table:
        """
        The drilling table of every line: line, number (from 1), along_mm, along (to 1/64 in), by (the jig and its hole, an old
        hole, or measured). Empty where only gaps were given.
        """
    @property
    def places(self, /) -> Table:
        """
        The holes of each jig: jig, hole (0 is the index hole), true_mm, inches (to 1/64 in), inch_mm (that in mm), metric_mm
        (to 0.1 mm).
        """
    @property
    def table(self, /) -> Table:
        """
        The jigs: jig (``"J1"``), spaces, length_mm (index hole to last), length (to 1/64 in), gaps_count, inch_error_mm
        (greatest rounding error of a place in 1/64 in), metric_error_mm (in 0.1 mm), stepped_error_mm (what the first would
        be, were one rounded space stepped off).
        """
    def to_dict(self, /) -> dict[str, Any]:
        """
        The tolerance and the tables by name.
        """
    @property
    def tolerance_mm(self, /) -> float:
        """
        How far a hole may be from its jig's in any gap that the jig serves, mm.
        """

@final
class Lap:
    """
    Two sheets joined by a line of rivets, or by several lines side by side; a third may lie between. Cannot be changed.

    Args:
        outer: The sheet under the rivet's head.
        inner: The other sheet, or the wall of a post as a sheet.
        rivet: The rivet.
        pitch: Spacing along the line, such as ``"4 1/4 in"``.
        edge: The line to the sheet's edge, such as ``"5/8 in"``.
        middle: A sheet between the two. Each pair of neighbours is then checked for the whole load in the plane: a load
            that passes through from sheet to sheet. One pulled against both others carries the sum; enter that sum.
        rows: Lines side by side, each at the same pitch.
        row_spacing: From line to line; needed where there are several.
        panel_edge: The line runs along a panel's edge, so that suction pulls on one side of the head only.
        steady_tension: The load away from the sheets stays on, instead of coming and going as wind does.
        lower_anchor: Reading of AISI S100 J4.3.1 between equal parts and a thick far part: ``"equal parts"``, the lower
            one, or ``"real parts"``.
        holes_may_stretch: Leave out AISI S100 J3.3.2, bearing with hole deformation considered.
        handbook_bearing: Bearing strengths of the weaker sheet from a handbook, at edge distances of 1.5 and of 2.0
            diameters, such as ``("600 MPa", "780 MPa")``; for the method ``"handbook bearing"``.

    Raises:
        InputError: A pitch, edge or spacing that no riveted line has; rows without their spacing.
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
    def __new__(cls, /, *, outer: Sheet, inner: Sheet, rivet: BlindRivet, pitch: str | Quantity, edge: str | Quantity, middle: Sheet | None = None, rows: "SupportsIndex" = 1, row_spacing: str | Quantity | None = None, panel_edge: bool = False, steady_tension: bool = False, lower_anchor: str = "equal parts", holes_may_stretch: bool = False, handbook_bearing: tuple[str | Quantity, str | Quantity] | None = None) -> Lap: ...
    def __reduce__(self, /) -> tuple[Any, ...]: ...
    def __repr__(self, /) -> str: ...
    def check(self, /, shear: str | Quantity | None = None, tension: str | Quantity | None = None, method: str = "EN 1993-1-3") -> Report:
        """
        Checks the lap by one rule set. Without a load the report still tells what the lap can carry.

        Args:
            shear: Load in the plane of the sheets across the line: of one rivet, such as ``"900 N"``, or of the line,
                such as ``"1.9 N/mm"``. A design load (factored) for EN, a service load for AISI S100, a factored load for
                its LRFD, an ultimate load for handbook bearing.
            tension: Load away from the sheets, given like `shear`. Each of several lines is checked for all of it.
            method: ``"EN 1993-1-3"``, ``"EN 1999-1-4"`` (aluminium), ``"AISI S100"`` and ``"AISI S100 LRFD"`` (screw
                rules, by analogy), ``"AISI S100 J3"`` and ``"AISI S100 J3 LRFD"`` (bolt bearing, by analogy) or
                ``"handbook bearing"``.

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
            >>> report.verdict, report.governing.name, report.governing.reason
            ("outside the rule's range", 'hole', 'needs a drill of at most 6.5 mm, or a test of the lap')
        """
    def check_by(self, /, methods: Iterable[str], *, shear: str | Quantity | None = None, tension: str | Quantity | None = None, load_factor: SupportsFloat | SupportsIndex | None = None) -> Reports:
        """
        Checks the lap by several rule sets, side by side.

        Args:
            methods: Names as `check` takes them.
            shear: Load in the plane of the sheets, as `check` takes it.
            tension: Load away from the sheets.
            load_factor: Makes design, factored and ultimate loads of the given ones, which then are service loads. Needed
                where the methods are at different levels; left out, the loads are at the level that all methods share.

        Returns:
            A report for each method.

        Raises:
            InputError: Methods at different levels without a load factor; no method; what `check` raises.
            QuantityError: A quantity without a unit, or with one of another kind.

        Example:
            >>> import raisedbody as rb
            >>> sheet = rb.Sheet(thickness="1.2 mm", fy="250 MPa", fu="360 MPa")
            >>> rivet = rb.BlindRivet("4.8 mm", product="ISO 16585")
            >>> lap = rb.Lap(outer=sheet, inner=sheet, rivet=rivet, pitch="60 mm", edge="12 mm")
            >>> reports = lap.check_by(["EN 1993-1-3", "AISI S100"], shear="400 N", load_factor=1.5)
            >>> [(r.method, r.level, r.shear_n) for r in reports]
            [('EN 1993-1-3', 'design', 600.0), ('AISI S100', 'allowable', 400.0)]
        """
    def check_by_test(self, /, tested: Tested, *, shear: str | Quantity | None = None, tension: str | Quantity | None = None, tested_in_tension: Tested | None = None) -> Report:
        """
        Checks the lap by tests of like laps, so that what lies outside the tables gets an answer.

        A lap that falls short of the tested one in any size, or that is of other parts, is outside the tests' range. Unless
        the lap's tension is steady, half of a tested pull counts, as for repeated wind (EN 1993-1-3 Table 8.2, by analogy).

        Args:
            tested: Tests in shear.
            shear: Load in the plane of the sheets, as `check` takes it, at the level of the tests.
            tension: Load away from the sheets.
            tested_in_tension: Tests of heads pulled through like laps; without them a lap that is pulled is not assessed.

        Returns:
            The report.

        Raises:
            InputError: A negative load; tests at different levels.
            QuantityError: A quantity without a unit, or with one of another kind.
        """
    @property
    def edge_mm(self, /) -> float:
        """
        The line to the sheet's edge, mm.
        """
    def fewest_rows(self, /, shear: str | Quantity | None = None, tension: str | Quantity | None = None, method: str = "EN 1993-1-3") -> Turned:
        """
        The fewest lines of rivets, 10 at most, that carry a line load.

        Lines share the shear equally; each is checked for all of the tension.

        Args:
            shear: Load in the plane of the sheets across the line, such as ``"60 N/mm"``.
            tension: Load away from the sheets, such as ``"2 N/mm"``.
            method: As `check` takes it.

        Returns:
            The number of lines, and the check that stops one line fewer.

        Raises:
            InputError: A negative load, or an unknown method.
            QuantityError: A quantity without a unit, or with one of another kind.
        """
    @property
    def handbook_bearing_mpa(self, /) -> tuple[float, float] | None:
        """
        Bearing strengths from a handbook at edge distances of 1.5 and of 2.0 diameters, MPa; None where not given.
        """
    @property
    def holes_may_stretch(self, /) -> bool:
        """
        AISI S100 J3.3.2 is left out.
        """
    @property
    def inner(self, /) -> Sheet:
        """
        The other sheet.
        """
    def largest_pitch(self, /, shear: str | Quantity | None = None, tension: str | Quantity | None = None, method: str = "EN 1993-1-3") -> Turned:
        """
        The largest pitch at which the lap carries a line load. Strength alone is asked; water and buckling between rivets
        set greatest spacings of their own: see `Spacing`.

        Args:
            shear: Load in the plane of the sheets across the line, such as ``"20 N/mm"``.
            tension: Load away from the sheets, such as ``"2 N/mm"``.
            method: As `check` takes it.

        Returns:
            The pitch, mm, and the check that stops it.

        Raises:
            InputError: A negative load, or an unknown method.
            QuantityError: A quantity without a unit, or with one of another kind.

        Example:
            >>> import raisedbody as rb
            >>> sheet = rb.Sheet(thickness="0.9 mm", fy="250 MPa", fu="360 MPa")
            >>> rivet = rb.BlindRivet("4.8 mm", product="ISO 16585")
            >>> lap = rb.Lap(outer=sheet, inner=sheet, rivet=rivet, pitch="50 mm", edge="12 mm")
            >>> largest = lap.largest_pitch(shear="20 N/mm")
            >>> round(largest.value, 2), largest.unit, largest.exact, largest.stopped_by
            (96.97, 'mm', True, 'bearing')
        """
    @property
    def lower_anchor(self, /) -> str:
        """
        Reading of AISI S100 J4.3.1.
        """
    @property
    def middle(self, /) -> Sheet | None:
        """
        The sheet between the two; None where there is none.
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
    @property
    def row_spacing_mm(self, /) -> float | None:
        """
        From line to line, mm; None where there is one.
        """
    @property
    def rows(self, /) -> int:
        """
        Lines side by side.
        """
    def smallest_edge(self, /, shear: str | Quantity | None = None, tension: str | Quantity | None = None, method: str = "EN 1993-1-3") -> Turned:
        """
        The smallest edge distance at which the lap carries its load.

        Args:
            shear: Load in the plane of the sheets, as `check` takes it.
            tension: Load away from the sheets.
            method: As `check` takes it.

        Returns:
            The distance, mm, and the check that stops it.

        Raises:
            InputError: No load, a negative one, or an unknown method.
            QuantityError: A quantity without a unit, or with one of another kind.
        """
    @property
    def steady_tension(self, /) -> bool:
        """
        The load away from the sheets stays on.
        """
    def thinnest_sheet(self, /, shear: str | Quantity | None = None, tension: str | Quantity | None = None, method: str = "EN 1993-1-3", sheets: str = "both") -> Turned:
        """
        The thinnest sheet with which the lap carries its load, as thickness of metal to count on (`Sheet.design_mm`).

        Args:
            shear: Load in the plane of the sheets, as `check` takes it.
            tension: Load away from the sheets.
            method: As `check` takes it.
            sheets: Which are made thinner: ``"outer"``, ``"inner"`` or ``"both"``, alike; a middle one stays as it is.

        Returns:
            The thickness, mm, and the check that stops it.

        Raises:
            InputError: A negative load, or an unknown method.
            QuantityError: A quantity without a unit, or with one of another kind.
        """
    def to_dict(self, /) -> dict[str, Any]:
        """
        Parts and sizes by name.
        """

@final
class LengthChoice:
    """
    The rivet length that holds a stack; `choose_length` makes it. Cannot be changed.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, ...]: ...
    def __repr__(self, /) -> str: ...
    @property
    def code(self, /) -> str | None:
        """
        Code that the length is ordered by; None where there is none.
        """
    @property
    def diameter_mm(self, /) -> float:
        """
        Nominal diameter, mm.
        """
    @property
    def grip_mm(self, /) -> float:
        """
        The stack, mm: sheets, coating and sealant.
        """
    @property
    def least_mm(self, /) -> float:
        """
        Thinnest stack that it holds, mm.
        """
    @property
    def length_mm(self, /) -> float | None:
        """
        Length of the body under the head, mm; None where not known.
        """
    @property
    def most_mm(self, /) -> float:
        """
        Thickest stack that it holds, mm.
        """
    @property
    def name(self, /) -> str:
        """
        What to order: the length, else the code, else the range.
        """
    @property
    def product(self, /) -> str:
        """
        Product, as in the catalogue's table of grips.
        """
    @property
    def source(self, /) -> str:
        """
        Where the range comes from.
        """
    @property
    def standing(self, /) -> str:
        """
        How the range is known.
        """
    def to_dict(self, /) -> dict[str, Any]:
        """
        The values by name, each ending in its unit; None for what is not known.
        """
    @property
    def warning(self, /) -> str | None:
        """
        What to mind: the stack is within 10 % of an end of the range. None where it is well inside.
        """

@final
class Lift:
    """
    The roof off its posts: what supports and braces carry at each step, and the wind at which work stops; `Evaluation.lift`
    makes it. Cannot be changed.

    Every number is a planning figure and none is a clearance. None stands for what the plan gives too little for, or for what
    is refused.

    Example:
        >>> import raisedbody as rb
        >>> lift = rb.Plan.read("examples/mobile_library.toml").evaluate().lift
        >>> lift.refusals, lift.missing
        ((), ())
        >>> lift.governing_wind_m_s <= lift.stop_wind_m_s
        True
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, ...]: ...
    def __repr__(self, /) -> str: ...
    @property
    def braces(self, /) -> Table:
        """
        Each brace at each step: rise_mm, name, length_mm (it is hung anew at each step), angle_deg over the level, tension_n
        and compression_n with the planner's factor in them, and what they may be.
        """
    @property
    def centre_mm(self, /) -> tuple[float, float, float]:
        """
        The roof's centre before the lift, mm: forward of the rear face, left of the middle, above the ground.
        """
    @property
    def counted(self, /) -> str:
        """
        What the wind is counted on.
        """
    @property
    def factor(self, /) -> float:
        """
        The planner's factor on every load.
        """
    @property
    def forces_wind_m_s(self, /) -> float | None:
        """
        The wind that the forces in the tables hold for, m/s: the planner's, else the one worked out.
        """
    @property
    def governing_wind_m_s(self, /) -> float | None:
        """
        The lower of the planner's wind and the one worked out, m/s.
        """
    @property
    def missing(self, /) -> tuple[str, ...]:
        """
        Entries of the plan without which something is not assessed.
        """
    @property
    def planned_wind_m_s(self, /) -> float | None:
        """
        The wind at which the planner stops, m/s.
        """
    @property
    def refusals(self, /) -> tuple[str, ...]:
        """
        Why there is no number where there is none: refused.
        """
    @property
    def roof_mass_kg(self, /) -> float | None:
        """
        Mass of the roof, kg; None where it is not in the plan.
        """
    @property
    def steps(self, /) -> Table:
        """
        Each step, from the roof just cut free: rise_mm, stop_wind_m_s, stopped_by, leaning_factor, sway_mm, and the greatest
        load of a support and force of a brace with their names, the planner's factor in them.
        """
    @property
    def stop_wind_m_s(self, /) -> float | None:
        """
        The largest wind at which everything holds at every step with the planner's factor, m/s.
        """
    @property
    def stopped_at_mm(self, /) -> float | None:
        """
        How far the roof is up when it does, mm.
        """
    @property
    def stopped_by(self, /) -> str | None:
        """
        What gives way first above that wind.
        """
    @property
    def supports(self, /) -> Table:
        """
        Each support in still air: name, x_mm, y_mm, even_n (equally stiff and level), greatest_n (in any sharing that statics
        allows), lag_n (greatest when any one lags) and lagging (which), drop_n (its greatest load dropped through the gap),
        capacity_n.
        """
    @property
    def tipping_margin_mm(self, /) -> float | None:
        """
        Way from the roof's centre to the nearest edge of the supports' outline, over which it would tip, mm.
        """
    def to_dict(self, /) -> dict[str, Any]:
        """
        All numbers and tables as plain values; None for what is not known.
        """
    @property
    def weight_n(self, /) -> float | None:
        """
        Weight of the roof, N.
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
    def cg_offset_after_mm(self, /) -> float | None:
        """
        Centre of gravity after, mm left of the middle; the empty bus is taken as balanced.
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
    def fit_out_over_skin(self, /) -> float | None:
        """
        How many times the fit-out outweighs the new skin; None without a fit-out.
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
    def roll_rate_after_deg_g(self, /) -> tuple[float, float] | None:
        """
        Lean on the springs after: a pair. None too where the springs do not hold the vehicle upright.
        """
    @property
    def roll_rate_before_deg_g(self, /) -> tuple[float, float] | None:
        """
        Lean on the springs before, degrees for a lateral acceleration of 1 g: a pair. None where the plan gives no roll
        stiffness.
        """
    @property
    def rollover_threshold_after_g(self, /) -> tuple[float, float] | None:
        """
        Steady lateral acceleration at which the inner wheels carry nothing, after, in g: a pair.
        """
    @property
    def rollover_threshold_before_g(self, /) -> tuple[float, float] | None:
        """
        Steady lateral acceleration at which the inner wheels carry nothing, before, in g: a pair. Lash and tyre crush
        make the real one lower.
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
class MeasureUp:
    """
    The measure-up of a plan at one stage: a form to print and fill in, and the fit of its readings. Cannot be changed.

    `Plan.measure_up` makes it. Printed, it is the form as text; in a notebook it shows the form. Every reading has a name,
    such as ``"height L3"`` for the height at the left post 3, counted from the rear.

    Example:
        >>> import raisedbody as rb
        >>> lifted = rb.Plan.read("examples/mobile_library.toml").measure_up("after lift")
        >>> lifted
        <MeasureUp of 'Travelling library' after lift: 111 readings>
        >>> next(lifted.readings.rows())["name"]
        'height L1'
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
        Measuring errors that stand in for those the plan does not give: field, value, standing, source.
        """
    @property
    def diagonal_tolerance_mm(self, /) -> float | None:
        """
        Tolerance of the difference between both diagonals in plan, mm; None where the plan has none.
        """
    def fit(self, /, readings: str | PathLike[str] | Mapping[str, Any] | DataFrame, *, before: str | PathLike[str] | Mapping[str, Any] | DataFrame) -> Squareness:
        """
        Fits readings with the roof up against those before the cut, by weighted least squares.

        Args:
            readings: Readings of this stage: lengths by name (``{"height L1": "1990 mm"}``), a table with the columns name
                and reading (or reading_mm), or the path of a filled-in file. Blanks are left out.
            before: The same readings before the cut.

        Returns:
            The motion of the roof, what to do about it, and go or no-go.

        Raises:
            InputError: Unknown or impossible readings; readings that contradict each other beyond their errors: the one to
                take again is named.
            QuantityError: A reading without a unit, or with one of another kind.
            PlanFileError: A file cannot be read.

        Example:
            >>> import raisedbody as rb
            >>> plan = rb.Plan.read("examples/mobile_library.toml")
            >>> def unmoved(form):
            ...     known = [row for row in form.readings.rows() if row["kind"] != "gap"]
            ...     return {row["name"]: f"{row['expected_mm']} mm" for row in known}
            >>> before, lifted = unmoved(plan.measure_up("before cut")), plan.measure_up("after lift")
            >>> after = unmoved(lifted)
            >>> lifted.fit(after, before=before)
            <Squareness after lift: go>
            >>> forward = {name: "12 mm" for name in after if name.startswith("plumb along")}
            >>> walked = lifted.fit(after | forward, before=before)
            >>> walked.decision, round(float(walked.parameters["value_mm"][0]), 3)
            ('no-go', 12.0)
        """
    def form(self, /) -> str:
        """
        The form with blanks as plain text.
        """
    @property
    def height_tolerance_mm(self, /) -> float | None:
        """
        Tolerance of a height, mm; None where the plan has none.
        """
    @property
    def notes(self, /) -> tuple[str, ...]:
        """
        What to know before the first reading is taken.
        """
    @property
    def plan(self, /) -> Plan:
        """
        The plan.
        """
    @property
    def plumb_tolerance_mm(self, /) -> float | None:
        """
        Tolerance across and along, mm; None where the plan has none.
        """
    def read(self, /, path: str | PathLike[str]) -> Table:
        """
        Reads a filled-in file; blanks are left out.

        Args:
            path: The file, as `write` made it. Commas, semicolons or tabs part its columns.

        Returns:
            A table of name and reading_mm, which `fit` takes.

        Raises:
            PlanFileNotFoundError: There is no such file (also a `FileNotFoundError`).
            InputError: Columns that are missing, readings of another stage, unknown names, names twice, what is no length;
                all of it with its line.
        """
    @property
    def readings(self, /) -> Table:
        """
        The lines of the form: name, kind, what is measured, from, to, expected_mm by survey and raise (NaN where the shop
        chooses the marks), error_mm (one standard deviation).
        """
    @property
    def stage(self, /) -> str:
        """
        When it is taken: ``"before cut"``, ``"after lift"`` or ``"after tacking"``.
        """
    def to_csv(self, /) -> str:
        """
        The form as comma-separated values, with a column ``reading`` to fill in: a length with its unit, or a number in the
        unit of the column beside it.

        Example:
            >>> import raisedbody as rb
            >>> form = rb.Plan.read("examples/mobile_library.toml").measure_up("before cut").to_csv()
            >>> form.splitlines()[0]
            'stage,name,what,from,to,expected,unit,reading'
        """
    def to_dict(self, /) -> dict[str, Any]:
        """
        Stage, tolerances and lines of the form as plain values; None for what is not known.
        """
    def write(self, /, path: str | PathLike[str], overwrite: bool = False) -> None:
        """
        Writes the form to a file, whole or not at all.

        Args:
            path: The file; its ending says what it becomes: ``.csv`` to fill in, ``.html`` or ``.txt`` to print.
            overwrite: Whether a file of that name is replaced.

        Raises:
            InputError: Another ending.
            PlanFileExistsError: The file is there and `overwrite` is false (also a `FileExistsError`).
            PlanFileError: The file cannot be written (also an `OSError`).
        """

@final
class Odds:
    """
    A quote drawn many times over; `Quote.odds` makes it. Cannot be changed.
    """
    def __eq__(self, other: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, ...]: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def currency(self, /) -> str:
        """
        The code of ISO 4217.
        """
    @property
    def draws(self, /) -> int:
        """
        How many draws.
        """
    @property
    def drivers(self, /) -> Table:
        """
        What drives the spread, the most first: cause, lines_count, of_variance (the share of the price's variance that goes with it),
        swing (how much it moves the price from the case that one in ten is below to the one that one in ten is above, the others at
        their means), currency.
        """
    @property
    def holds(self, /) -> float:
        """
        The share of all cases in which the quoted total suffices.
        """
    def hours_h(self, share: SupportsFloat | SupportsIndex, /) -> float:
        """
        Hours of one person, all tasks, that suffice in this share of all cases.

        Args:
            share: More than 0 and less than 1.

        Returns:
            The hours.

        Raises:
            InputError: The share is not between 0 and 1.
        """
    @property
    def mean(self, /) -> float:
        """
        Mean of the totals, in `currency`.
        """
    @property
    def open_items(self, /) -> tuple[str, ...]:
        """
        What has no price and is in no draw.
        """
    def price(self, share: SupportsFloat | SupportsIndex, /) -> str:
        """
        The total that holds in this share of all cases, exact: the least one that so many draws do not exceed, up to the smallest
        coin.

        Args:
            share: More than 0 and less than 1: 0.8 for four cases in five.

        Returns:
            The amount as text, without its currency.

        Raises:
            InputError: The share is not between 0 and 1.
        """
    @property
    def quantiles(self, /) -> Table:
        """
        A row for 10, 50, 80, 90 and 95 cases in a hundred: share, price, currency, hours_h.
        """
    @property
    def sd(self, /) -> float:
        """
        Standard deviation of the totals, in `currency`.
        """
    @property
    def seed(self, /) -> int:
        """
        Where the random numbers start.
        """
    def to_dict(self, /) -> dict[str, Any]:
        """
        The sums and tables as plain values.
        """
    @property
    def totals(self, /) -> Incomplete:
        """
        Every draw's total, from the least to the greatest, in `currency`.
        """

@final
class Page:
    """
    A page of HTML that stands alone, to be looked at in any browser and printed: no script, nothing from outside.
    `Evaluation.packet` makes one. Cannot be changed.

    In a notebook it shows itself.

    Args:
        name: What it is.
        html: The page, whole.

    Example:
        >>> import raisedbody as rb
        >>> page = rb.Plan.read("examples/workshop_bus.toml").evaluate().packet()
        >>> page.name
        'Workshop bus, job packet'
        >>> "Hanging order" in page.html
        True
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(cls, /, name: str, html: str) -> Page: ...
    def __reduce__(self, /) -> tuple[Any, ...]: ...
    def __repr__(self, /) -> str: ...
    def __str__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def html(self, /) -> str:
        """
        The page as HTML.
        """
    @property
    def name(self, /) -> str:
        """
        What it is.
        """
    def write(self, /, path: str | PathLike[str], overwrite: bool = False) -> None:
        """
        Writes the page to a file, whole or not at all.

        Args:
            path: The file, which ends in ``.html``.
            overwrite: Whether a file of that name is replaced.

        Raises:
            InputError: Another ending.
            PlanFileExistsError: The file is there and `overwrite` is false (also a `FileExistsError`).
            PlanFileError: The file cannot be written (also an `OSError`).
        """

@final
class Panel:
    """
    A rectangular panel of thin sheet between its supports. Cannot be changed.

    Theory of thin elastic plates. Real edges lie between simple and clamped: ask both and take the answers as a range.

    Args:
        a: Side along the compression.
        b: Side across it; of a curved panel the arc.
        thickness: Metal of the sheet.
        edges: ``"simple"`` (free to turn) or ``"clamped"``; in compression also ``"sides clamped"`` (those along it) and
            ``"side free"`` (one of those along it not held).
        radius: Radius of the arc b; None for a flat panel.
        material: The metal, a name of the catalogue's material table.
        modulus: Modulus of elasticity in place of the table's.
        poisson: Poisson's ratio in place of the table's.
        expansion_um_m_k: Thermal expansion in place of the table's, millionths per kelvin.

    Raises:
        InputError: Sizes or constants that no skin has; an unknown metal or hold.
        QuantityError: A quantity without a unit, or with one of another kind.

    Example:
        >>> import raisedbody as rb
        >>> panel = rb.Panel(a="1.4 m", b="711.2 mm", thickness="0.912 mm", modulus="205 GPa")
        >>> round(panel.compression().stress_mpa, 2)
        1.22
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(cls, /, *, a: str | Quantity, b: str | Quantity, thickness: str | Quantity, edges: str = "simple", radius: str | Quantity | None = None, material: str = "carbon steel", modulus: str | Quantity | None = None, poisson: SupportsFloat | SupportsIndex | None = None, expansion_um_m_k: SupportsFloat | SupportsIndex | None = None) -> Panel: ...
    def __reduce__(self, /) -> tuple[Any, ...]: ...
    def __repr__(self, /) -> str: ...
    @property
    def a_mm(self, /) -> float:
        """
        Side along the compression, mm.
        """
    @property
    def b_mm(self, /) -> float:
        """
        Side across it, mm.
        """
    def biaxial(self, /) -> PanelBuckling:
        """
        Buckling in equal compression both ways, flat.

        Returns:
            Coefficient and elastic buckling stress.

        Raises:
            InputError: A curved panel; edges other than simple or clamped.

        Example:
            >>> import raisedbody as rb
            >>> rb.Panel(a="1.2 m", b="600 mm", thickness="1.2 mm").biaxial().k
            1.25
        """
    def bow(self, /, pressure: str | Quantity | None = None, *, rise: str | Quantity | None = None) -> PanelBow:
        """
        How far the panel bows under pressure, and at a temperature difference, its edges held in plane.

        Von Kármán's plate, by a Ritz series: small pressures bow by the linear law, great ones less as the sheet stretches.

        Args:
            pressure: Pressure or suction.
            rise: Skin over frame since the sheet was hung; cold makes it tight. See `skin_over_frame_k`.

        Raises:
            InputError: A pressure or difference beyond the series; a bow too steep for the theory; a curved panel; edges
                other than simple or clamped.
            QuantityError: A quantity without a unit, or with one of another kind.

        Example:
            >>> import raisedbody as rb
            >>> side = rb.Panel(a="700 mm", b="700 mm", thickness="1.2 mm", modulus="205 GPa")
            >>> bow = side.bow("340 Pa")
            >>> round(bow.bow_mm, 2), round(bow.linear_mm, 2)
            (1.94, 10.22)
        """
    def compression(self, /) -> PanelBuckling:
        """
        Buckling in compression along a, flat.

        Returns:
            Coefficient and elastic buckling stress; not limited by the metal's yield strength.

        Raises:
            InputError: A curved panel; a shape outside the rows: a/b below 0.2 (simple) or 0.5 (clamped), outside 1 to 5
                with a free side.

        Example:
            >>> import raisedbody as rb
            >>> square = rb.Panel(a="600 mm", b="600 mm", thickness="1.2 mm", edges="clamped")
            >>> square.compression().k
            10.074
        """
    def curved_compression(self, /) -> CurvedBuckling:
        """
        Buckling of a curved panel compressed along a, the axis of its curve, by two rules that differ by up to a third.

        Returns:
            Both, and what is to be expected of them: thin shells buckle at 0.2 to 0.6 of theory.

        Raises:
            InputError: A flat panel; edges other than simple; a panel shorter than wide.

        Example:
            >>> import raisedbody as rb
            >>> roof = rb.Panel(a="1 m", b="300 mm", thickness="0.9 mm", radius="2 m", modulus="205 GPa")
            >>> curved = roof.curved_compression()
            >>> round(curved.redshaw_mpa, 2), round(curved.timoshenko_mpa, 2), curved.knocked_down
            (59.27, 55.83, True)
        """
    def dent(self, /, other_thickness: str | Quantity, *, fy: str | Quantity, other_fy: str | Quantity) -> DentComparison:
        """
        This sheet's resistance to dents over another's, by proportion; not a strength.

        Args:
            other_thickness: Metal of the other sheet.
            fy: Yield strength of this sheet.
            other_fy: Yield strength of the other.

        Raises:
            InputError: A thickness or strength that no sheet has.
            QuantityError: A quantity without a unit, or with one of another kind.

        Example:
            >>> import raisedbody as rb
            >>> side = rb.Panel(a="700 mm", b="700 mm", thickness="1.2 mm")
            >>> round(side.dent("0.9 mm", fy="230 MPa", other_fy="230 MPa").load_ratio, 2)
            1.78
        """
    def diagonal_tension(self, /, shear: str | Quantity, *, depth: str | Quantity, spacing: str | Quantity, upright_length: str | Quantity, upright_area: str | Quantity, fy: str | Quantity, fu: str | Quantity, flange_restraint: SupportsFloat | SupportsIndex, upright_restraint: SupportsFloat | SupportsIndex, upright_eccentricity: str | Quantity | None = None, upright_gyration: str | Quantity | None = None, flange_area: str | Quantity | None = None, c2: SupportsFloat | SupportsIndex | None = None) -> DiagonalTension:
        """
        The panel as a web in shear that buckles and carries on in folds: incomplete diagonal tension, NACA TN 2661.

        Side a is the clear depth between the flanges, side b the clear width between the uprights, b at most a. The tests
        were of aluminium alloy; of a stiffer metal the answer says so.

        Args:
            shear: Shear force on the web.
            depth: Between the flanges' centroids, h_e: 110 to 1500 thicknesses.
            spacing: From one upright to the next: 0.2 to 1 of the depth.
            upright_length: Between the flanges' rivet lines, h_U.
            upright_area: Area of an upright.
            fy: Yield strength of the web; beyond it the theory ends.
            fu: Tensile strength of the web, for the uprights' rivets.
            flange_restraint: How flanges hold the web's edges, R_h: 1 simple, 1.62 clamped.
            upright_restraint: How uprights do, R_d.
            upright_eccentricity: Web's middle to the upright's centroid, for uprights on one side; with upright_gyration.
            upright_gyration: Radius of gyration of such an upright.
            flange_area: Area of one flange; None for flanges much stiffer than the web.
            c2: C2 of the flanges' bending from the paper's figure; with flange_area.

        Raises:
            InputError: Numbers that no web has; a web unlike those tested; a web that would yield; half of a pair.
            QuantityError: A quantity without a unit, or with one of another kind.

        Example:
            >>> import raisedbody as rb
            >>> web = rb.Panel(a="9.875 in", b="7 in", thickness="0.1043 in", modulus="10600 ksi", poisson=0.32)
            >>> at = web.diagonal_tension(
            ...     "34.5 kip", depth="11.58 in", spacing="7 in", upright_length="9.875 in", upright_area="0.1443 in2",
            ...     upright_eccentricity="0.251 in", upright_gyration="0.182 in", fy="60 ksi", fu="62 ksi",
            ...     flange_restraint=0.93, upright_restraint=1.62)
            >>> round(at.shear_mpa / 6.894757, 2), round(at.k, 2)
            (28.56, 0.12)
        """
    @property
    def edges(self, /) -> str:
        """
        How the edges hold it.
        """
    @property
    def expansion_um_m_k(self, /) -> float:
        """
        Thermal expansion, millionths per kelvin.
        """
    def frequency(self, /, *, areal_mass: str | Quantity | None = None) -> PanelFrequency:
        """
        First natural frequency: what the panel drums at. Air and paint lower it, tension raises it.

        Args:
            areal_mass: Mass per area with coats and damping sheets; that of the bare metal where left out.

        Raises:
            InputError: A mass that no skin has; a curved panel; edges other than simple or clamped.
            QuantityError: A quantity without a unit, or with one of another kind.

        Example:
            >>> import raisedbody as rb
            >>> side = rb.Panel(a="700 mm", b="700 mm", thickness="1.2 mm", modulus="205 GPa")
            >>> round(side.frequency().frequency_hz, 1)
            11.9
        """
    def heating(self, /, rise: str | Quantity, *, restraint: str = "both ways") -> PanelHeat:
        """
        The panel at a temperature difference, skin over frame: when it buckles, how far it bows, what its rivets carry.

        Args:
            rise: Skin over frame since the sheet was hung; below nought the sheet is tight. See `skin_over_frame_k`.
            restraint: ``"both ways"``, or ``"along a"`` where the sheet is free to grow across.

        Raises:
            InputError: A difference that no skin meets; a curved panel; a shape or edges without a coefficient.
            QuantityError: A quantity without a unit, or with one of another kind.

        Example:
            >>> import raisedbody as rb
            >>> side = rb.Panel(a="7.1 m", b="711.2 mm", thickness="0.912 mm", expansion_um_m_k=12)
            >>> hot = side.heating("30 K")
            >>> round(hot.critical_rise_k, 3), round(hot.strip_bow_mm, 2)
            (0.088, 9.78)
        """
    @property
    def material(self, /) -> str:
        """
        The metal.
        """
    @property
    def modulus_mpa(self, /) -> float:
        """
        Modulus of elasticity, MPa.
        """
    @property
    def poisson(self, /) -> float:
        """
        Poisson's ratio.
        """
    @property
    def radius_mm(self, /) -> float | None:
        """
        Radius of the arc b, mm; None for a flat panel.
        """
    def shear(self, /) -> PanelBuckling:
        """
        Buckling in shear, flat.

        Returns:
            Coefficient and elastic buckling stress.

        Raises:
            InputError: A curved panel; edges other than simple or clamped.

        Example:
            >>> import raisedbody as rb
            >>> panel = rb.Panel(a="711.2 mm", b="600 mm", thickness="0.912 mm", modulus="205 GPa")
            >>> round(panel.shear().k, 3), round(panel.shear().stress_mpa, 2)
            (8.187, 3.5)
        """
    def skin_over_frame_k(self, /, *, skin: str | Quantity, frame: str | Quantity, skin_hung: str | Quantity, frame_hung: str | Quantity, frame_material: str = "carbon steel", slip: str | Quantity | None = None) -> float:
        """
        The temperature difference, skin over frame, that works on the sheet since it was hung, K.

        Skin and frame equally warm gain nothing; a sheet hung warmer than its frame is tight once they are even.

        Args:
            skin: Temperature of the skin now.
            frame: Temperature of the frame now.
            skin_hung: Temperature of the skin when it was riveted.
            frame_hung: Temperature of the frame then.
            frame_material: Metal of the frame.
            slip: By how much the rivets of one panel give way along a; it takes up that much of the difference.

        Returns:
            The difference, as the skin's own expansion would make it; below nought the sheet is tight.

        Raises:
            InputError: Temperatures that no bus meets; a slip that no rivet has; an unknown metal.
            QuantityError: A quantity without a unit, or with one of another kind.

        Example:
            >>> import raisedbody as rb
            >>> side = rb.Panel(a="1.4 m", b="700 mm", thickness="1.2 mm")
            >>> round(side.skin_over_frame_k(skin="60 degC", frame="40 degC", skin_hung="45 degC", frame_hung="20 degC"), 6)
            -5.0
        """
    @property
    def thickness_mm(self, /) -> float:
        """
        Metal of the sheet, mm.
        """
    def to_dict(self, /) -> dict[str, Any]:
        """
        The values by name, each ending in its unit.
        """

@final
class PanelBow:
    """
    How far a panel bows. Cannot be changed.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, ...]: ...
    def __repr__(self, /) -> str: ...
    @property
    def bow_mm(self, /) -> float:
        """
        At the middle, mm, in one bulge.
        """
    @property
    def heat_number(self, /) -> float:
        """
        Heat number 12 (1 + ν) α ΔT b²/t².
        """
    @property
    def linear_mm(self, /) -> float:
        """
        What small-deflection theory says of the pressure alone, mm.
        """
    @property
    def load_number(self, /) -> float:
        """
        Load number q b⁴/(E t⁴).
        """
    @property
    def pull_a_n_mm(self, /) -> float:
        """
        Mean pull in the sheet along a, N per mm of the edges across it; below nought it pushes.
        """
    @property
    def pull_b_n_mm(self, /) -> float:
        """
        Mean pull in the sheet along b, N per mm.
        """
    @property
    def source(self, /) -> str:
        """
        Where it is from.
        """
    @property
    def standing(self, /) -> str:
        """
        How firmly it is known.
        """
    def to_dict(self, /) -> dict[str, Any]:
        """
        The values by name, each ending in its unit.
        """

@final
class PanelBuckling:
    """
    When a flat panel buckles. Cannot be changed.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, ...]: ...
    def __repr__(self, /) -> str: ...
    @property
    def k(self, /) -> float:
        """
        Buckling coefficient: σ_cr = k π² E / (12 (1 - ν²)) (t/b)².
        """
    @property
    def source(self, /) -> str:
        """
        Where k is from.
        """
    @property
    def standing(self, /) -> str:
        """
        How firmly k is known.
        """
    @property
    def stress_mpa(self, /) -> float:
        """
        Elastic buckling stress, MPa.
        """
    def to_dict(self, /) -> dict[str, Any]:
        """
        The values by name, each ending in its unit.
        """

@final
class PanelFrequency:
    """
    What a panel drums at, in still air and without tension. Cannot be changed.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, ...]: ...
    def __repr__(self, /) -> str: ...
    @property
    def frequency_coefficient(self, /) -> float:
        """
        Frequency coefficient: 2π f b² √(ρ t / D).
        """
    @property
    def frequency_hz(self, /) -> float:
        """
        First natural frequency, Hz.
        """
    @property
    def source(self, /) -> str:
        """
        Where the coefficient is from.
        """
    @property
    def standing(self, /) -> str:
        """
        How firmly it is known.
        """
    def to_dict(self, /) -> dict[str, Any]:
        """
        The values by name, each ending in its unit.
        """

@final
class PanelHeat:
    """
    A panel at a temperature difference, skin over frame. Cannot be changed.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, ...]: ...
    def __repr__(self, /) -> str: ...
    @property
    def buckled(self, /) -> bool:
        """
        Whether it does.
        """
    @property
    def critical_rise_k(self, /) -> float:
        """
        Difference at which the panel buckles, K.
        """
    @property
    def flat_force_n_mm(self, /) -> float:
        """
        What a millimetre of the rivet line would carry if the sheet stayed flat, N/mm: E α ΔT t, held both ways over
        1 - ν. Below nought the sheet pulls.
        """
    @property
    def k(self, /) -> float:
        """
        Buckling coefficient in this restraint.
        """
    @property
    def line_force_n_mm(self, /) -> float:
        """
        What it carries, N/mm: the flat force, at most σ_cr t. After buckling the true one lies between the two: across a
        long bulge near this, along it nearer the flat one until the sheet falls into several bulges.
        """
    @property
    def rule(self, /) -> str:
        """
        The rule of the line force.
        """
    @property
    def source(self, /) -> str:
        """
        Where k is from.
        """
    @property
    def standing(self, /) -> str:
        """
        How firmly k is known.
        """
    @property
    def strip_bow_mm(self, /) -> float | None:
        """
        How far a long strip as wide as the shorter side bows, mm; None for a panel held one way only. A squarer panel
        bows up to a tenth less, and frames give way: an upper figure.
        """
    def to_dict(self, /) -> dict[str, Any]:
        """
        The values by name, each ending in its unit.
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
    def cuts(self, /) -> Cuts:
        """
        Every height and extent at which this bus could be cut for the plan's raise.

        Heights are the bands between floor, rub rail, windows and drip rail, and the lines between them; extents are the whole
        roof, and every pair of posts with stepped and with sloped ends. Each has the reasons against it, or its splices, new
        skin, transitions, headroom and hours, counted as `evaluate` counts, and its rank.

        Returns:
            The cuts, best first.

        Raises:
            InputError: A catalogue row of the plan's own cannot be used.

        Example:
            >>> from raisedbody import Plan
            >>> plan = Plan.read("examples/mobile_library.toml")
            >>> plan.cuts().own.rank
            1
        """
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
            folder: Where catalogue files and a price book that the plan names are looked for.

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
    def measure_up(self, stage: str, /) -> MeasureUp:
        """
        The measure-up at a stage: a form to fill in, and the fit of its readings.

        Args:
            stage: ``"before cut"``, ``"after lift"`` or ``"after tacking"``.

        Returns:
            The measure-up.

        Raises:
            InputError: There is no such stage.
        """
    @property
    def name(self, /) -> str:
        """
        What this job is called.
        """
    def quote_jobs(self, jobs: Mapping[str, Iterable[Any]], /, *, whole: bool = False, progress: bool | Callable[..., Any] | None = None) -> Table:
        """
        Quotes many jobs, on all cores: each row is this plan with some entries changed. `quote_batch` does the same for
        dataframes, and streams of them. Other threads run meanwhile, and it can be interrupted.

        Args:
            jobs: A value for each row, by the entry's path: ``{"skin.gauge": [16, 18, None]}``. None, and NaN, leave the entry
                as it is.
            whole: Whether each row is evaluated whole. Else the cut list is left out, hours and price are those of the plan without
                its ``cutting``, and so are the lift, the bows, the splices, the end caps, the flatness and their checks, rusted joints,
                metals in contact and the gate.
            progress: Whether a long run shows on standard error how far it is; or a callable that is told now and then how many
                are done and of how many.

        Returns:
            A row for each job: price (exact, as text), currency, open_items, verdict (the worst of the checks that were made),
            checks_count, failing, the numbers of `compare` but for the sway stiffness (NaN where not known), and error: why the
            job cannot be, empty where it can.

        Raises:
            InputError: An entry that no plan has, one that is changed twice, or columns of unlike length.

        Example:
            >>> import raisedbody as rb
            >>> plan = rb.Plan.read("examples/workshop_bus.toml")
            >>> quotes = plan.quote_jobs({"skin.gauge": [16, 99]})
            >>> quotes["error"][0], "skin.gauge" in quotes["error"][1]
            (np.str_(''), True)
        """
    @staticmethod
    def read(path: str | PathLike[str]) -> Plan:
        """
        Reads a plan file; catalogue files and a price book that it names are read too and become part of the plan.

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

        A new gauge takes out an old thickness, a new weighing an old height of the centre of gravity, and the other way
        round. The whole plan is validated again. A price book (``prices={"book": "prices.toml"}``) is looked for in the current folder
        and gives its prices wherever the plan has none; those of a book that was read before count as the plan's own: take ``prices`` out
        first (`without`) to have another book's.

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
    def sweep(self, axes: Mapping[str, Iterable[Any]], /, *, progress: bool | Callable[..., Any] | None = None) -> Sweep:
        """
        Works out every combination of the values of some entries, on all cores. Other threads run meanwhile, and it can be
        interrupted.

        Of each combination it gives the numbers of `compare` but for the sway stiffness, or why it cannot be. The lift, the bows, the schedule and
        most checks are left out: evaluate what you choose (`Sweep.plan`). So is the cut list: hours and price are those of the
        plan without its ``cutting``, every blank bought cut to size and bars by the metre.

        Args:
            axes: The values that each entry takes, by the entry's path: ``{"skin.gauge": [16, 18]}``. A value that is a mapping
                changes the entries in it. The last entry varies fastest.
            progress: Whether a long sweep shows on standard error how far it is; or a callable that is told now and then how
                many combinations are done and of how many.

        Returns:
            The sweep.

        Raises:
            InputError: No entry, no value, a value given twice, an entry that is changed twice, values that no plan can hold,
                or more combinations than there is room for.
            TypeError: A value of a type that no plan holds.

        Example:
            >>> import raisedbody as rb
            >>> plan = rb.Plan.read("examples/workshop_bus.toml")
            >>> sweep = plan.sweep({"skin.gauge": [16, 18], "fastening.pitch": ["3 in", "4 in"]})
            >>> sweep.table["skin.gauge"].tolist()
            ['16', '16', '18', '18']
        """
    def to_dict(self, /) -> dict[str, Any]:
        """
        The entries as written, nested as in the file.
        """
    def to_text(self, /) -> str:
        """
        The plan as TOML text that reads back as an equal plan.

        A plan that was read, and those made from it, keep the planner's comments, order, blank lines and spelling of values
        wherever nothing was changed. A comment goes with the entry that it stands above or beside. Rows of catalogue files and
        prices of a book are part of the plan and stand in its text.

        Example:
            >>> from raisedbody import Plan
            >>> plan = Plan.read("examples/mobile_library.toml")
            >>> plan.replace(vehicle={"track": "1.96 m"}).to_text().splitlines()[0]
            '# A travelling library, invented for this example: every figure below is made up.'
        """
    def with_cut(self, cut: Cut, /) -> Plan:
        """
        This plan with another cut: its height, its posts and its ends.

        Args:
            cut: One of `cuts` that can be made.

        Returns:
            The new plan; this one stays as it is.

        Raises:
            InputError: The cut is turned down, or is of another plan and does not fit this one.

        Example:
            >>> from raisedbody import Plan
            >>> plan = Plan.read("examples/mobile_library.toml")
            >>> shorter = next(cut for cut in plan.cuts() if cut.ends == "stepped" and cut.rank)
            >>> plan.with_cut(shorter).to_dict()["raise"]["last_post"]
            9
        """
    def without(self, path: str, /) -> Plan:
        """
        This plan with an entry, or a whole part, taken out.

        Args:
            path: The entry, such as ``"end_caps"`` or ``"shop.prime_time"``.

        Returns:
            The new plan; this one stays as it is.

        Raises:
            InputError: The plan has no such entry, or cannot be without it.

        Example:
            >>> from raisedbody import Plan
            >>> plan = Plan.read("examples/mobile_library.toml")
            >>> "end_caps" in plan.without("end_caps").to_dict()
            False
        """
    def write(self, /, path: str | PathLike[str], overwrite: bool = False) -> None:
        """
        Writes the plan to a file, whole or not at all, as `to_text` has it.

        A process that is killed meanwhile leaves the file as it was, and may leave one beside it that begins with ``.raisedbody-``
        and ends in ``.part``: nothing reads it, and it can be deleted.

        Args:
            path: The file.
            overwrite: Whether a file of that name is replaced.

        Raises:
            PlanFileExistsError: The file is there and `overwrite` is false (also a `FileExistsError`).
            PlanFileError: The file cannot be written (also an `OSError`).
        """

@final
class PlasticBounds:
    """
    Bounds on how many times the load a ductile group carries; `RivetGroup.plastic` makes it. Cannot be changed.

    It presumes ductile rivets: that none breaks and no sheet tears before the last ones reach their caps. Unless tests
    show it, use `RivetGroup.elastic`, which is the default.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, ...]: ...
    def __repr__(self, /) -> str: ...
    @property
    def caps_n(self, /) -> tuple[float, ...]:
        """
        Force at which each rivet gives way, N.
        """
    @property
    def factor(self, /) -> float:
        """
        This many times the load is carried by the forces of `table`: use this one.
        """
    @property
    def factor_at_most(self, /) -> float:
        """
        No distribution of forces carries more than this many times the load: shows how close `factor` is.
        """
    @property
    def group(self, /) -> RivetGroup:
        """
        The group.
        """
    @property
    def table(self, /) -> Table:
        """
        A row for each rivet, as that of `GroupForces`, at `factor` times the load; no resultant is above its cap.
        """
    def to_dict(self, /) -> dict[str, Any]:
        """
        Factors, caps and forces as plain values.
        """

@final
class Quote:
    """
    A price for the job of a plan: lines, each traceable to its quantity; `Evaluation.quote` makes it. Cannot be changed.

    Sums are exact decimals and come as text; tables give money as the nearest binary number.

    Example:
        >>> import raisedbody as rb
        >>> quote = rb.Plan.read("examples/mobile_library.toml").evaluate().quote
        >>> quote.currency, quote.open_items
        ('USD', ())
    """
    def __eq__(self, other: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, ...]: ...
    def __repr__(self, /) -> str: ...
    def __str__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def cautions(self, /) -> tuple[str, ...]:
        """
        What whoever signs it should know first.
        """
    @property
    def currency(self, /) -> str:
        """
        The code of ISO 4217.
        """
    @property
    def excluded(self, /) -> tuple[str, ...]:
        """
        What the price does not cover.
        """
    @property
    def expired(self, /) -> bool:
        """
        That day is before the day of the quote.
        """
    def letter(self, /) -> str:
        """
        The letter to the customer: a page of HTML that stands alone and prints on one sheet.
        """
    @property
    def lines(self, /) -> Table:
        """
        A row for each line: name, stage, basis ("materials", "labour", "freight", "extra", "share"), priced_by (the entry of the
        price book, or the trade), quantity, unit, unit_price, amount, currency, from (where the quantity comes from), note (a
        break or a least charge that decided).
        """
    def odds(self, /, *, draws: "SupportsIndex" = 100000, seed: "SupportsIndex" = 1, progress: bool | Callable[..., Any] | None = None) -> Odds:
        """
        Draws the quote over and over, by what the plan's ``odds`` say may turn out otherwise. Other threads run meanwhile, and it can
        be interrupted.

        Every draw is the same for the same seed, however many cores work.

        Args:
            draws: How many, 100 to 20 million.
            seed: Where the random numbers start.
            progress: Whether a long run shows on standard error how far it is; or a callable that is told how many are done and of
                how many.

        Returns:
            The odds.

        Raises:
            InputError: The plan has no ``odds``, one names no line of the quote, or too few or too many draws.

        Example:
            >>> import raisedbody as rb
            >>> odds = rb.Plan.read("examples/mobile_library.toml").evaluate().quote.odds(draws=10_000)
            >>> odds.price(0.5) < odds.price(0.9)
            True
        """
    @property
    def open_items(self, /) -> tuple[str, ...]:
        """
        What has no price yet.
        """
    @property
    def sheet_ways(self, /) -> Table:
        """
        Sheets cut by the shop beside every blank bought cut to size: way, amount (sheets, sellers' cuts and own time at the
        shear, before overhead and margin), planned, currency; empty where there is no stock to cut from.
        """
    @property
    def stages(self, /) -> Table:
        """
        A row for each stage: stage, cost (its lines before overhead and margin), price (with its share of them; all sum to the
        total without tax), currency.
        """
    @property
    def tax(self, /) -> str:
        """
        The tax in the total, exact.
        """
    def to_dict(self, /) -> dict[str, Any]:
        """
        The sums and all tables as plain values; None for what is not known.
        """
    @property
    def total(self, /) -> str:
        """
        The sum of the lines, tax included, exact: ``"18250.40"``. Open items are not in it.
        """
    @property
    def valid_until(self, /) -> str | None:
        """
        The last day on which the prices hold, year-month-day; None where it is not given.
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
    def explain(self, /, form: str = "text") -> str:
        """
        Every check as a hand calculation: formula, numbers with units, result, clause, standing.

        Args:
            form: ``"text"``, ``"html"`` or ``"latex"``.

        Raises:
            InputError: Another form.
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
    def level(self, /) -> str:
        """
        The level of its strengths, and of the loads they are compared with: ``"design"``, ``"allowable"``, ``"factored"``
        or ``"minimum"``.
        """
    @property
    def method(self, /) -> str:
        """
        The rule set, or ``"tested lap"``.
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
class Reports:
    """
    One lap by several rule sets, side by side; `Lap.check_by` makes it. Cannot be changed. ``reports[i]`` is its report i.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __getitem__(self, index: SupportsIndex, /) -> Report: ...
    def __len__(self, /) -> int: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, ...]: ...
    def __repr__(self, /) -> str: ...
    def __str__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    def explain(self, /, form: str = "text") -> str:
        """
        Every check of every report as a hand calculation.

        Args:
            form: ``"text"``, ``"html"`` or ``"latex"``.

        Raises:
            InputError: Another form.
        """
    @staticmethod
    def of(reports: Iterable[Report]) -> Reports:
        """
        Puts reports side by side.

        Args:
            reports: Reports, of any laps.
        """
    @property
    def table(self, /) -> Table:
        """
        The checks of all reports as a table: method, then the columns of `Report.table`.
        """
    @property
    def verdict(self, /) -> str:
        """
        The worst of the verdicts.
        """

@final
class RivetGroup:
    """
    Rivets that share a load in the plane of the sheets. Cannot be changed.

    Args:
        places: x and y of each rivet, such as ``[("0 mm", "0 mm"), ("0 mm", "100 mm")]``.
        diameters: Diameter of each rivet, which then is as stiff as its area; all are equally stiff where left out.

    Raises:
        InputError: No rivet, or more than 1000; two in one place; diameters that are not one for each; sizes that no
            group has.
        QuantityError: A quantity without a unit, or with one of another kind.
        TypeError: A place that is no pair.

    Example:
        >>> import raisedbody as rb
        >>> group = rb.RivetGroup([("0 mm", "0 mm"), ("0 mm", "100 mm"), ("0 mm", "200 mm"), ("0 mm", "300 mm")])
        >>> forces = group.elastic(y="25 kN", at=("100 mm", "0 mm"))
        >>> forces.worst, round(forces.worst_n, 1)
        (0, 9762.8)
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __len__(self, /) -> int: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(cls, /, places: Iterable[tuple[str | Quantity, str | Quantity]], diameters: Iterable[str | Quantity] | None = None) -> RivetGroup: ...
    def __reduce__(self, /) -> tuple[Any, ...]: ...
    def __repr__(self, /) -> str: ...
    @property
    def diameters_mm(self, /) -> tuple[float, ...] | None:
        """
        Diameter of each rivet, mm; None where all are equally stiff.
        """
    def elastic(self, /, x: str | Quantity | None = None, y: str | Quantity | None = None, at: tuple[str | Quantity, str | Quantity] | None = None, couple: tuple[str | Quantity, str | Quantity] | None = None) -> GroupForces:
        """
        Shares a load out by the elastic vector method: rigid sheets, every rivet a spring, small slip, holes filled.

        Args:
            x: Force along x, such as ``"900 N"``.
            y: Force along y.
            at: A point on the line of the force, x and y, such as ``("100 mm", "0 mm")``; must be given with a force.
            couple: A couple besides, anticlockwise, as one of its two forces and the distance between them, such as
                ``("250 N", "100 mm")``; a negative force turns clockwise.

        Returns:
            The force on each rivet.

        Raises:
            InputError: No load; a force without its line; a load that no group has; a single rivet loaded off its centre.
            QuantityError: A quantity without a unit, or with one of another kind.
            TypeError: `at` or `couple` is no pair.

        Example:
            >>> import raisedbody as rb
            >>> pair = rb.RivetGroup([("0 mm", "0 mm"), ("100 mm", "0 mm")])
            >>> pair.elastic(couple=("250 N", "100 mm")).table["secondary_y_n"].tolist()
            [-250.0, 250.0]
        """
    @property
    def places_mm(self, /) -> tuple[tuple[float, float], ...]:
        """
        x and y of each rivet, mm.
        """
    def plastic(self, /, x: str | Quantity | None = None, y: str | Quantity | None = None, at: tuple[str | Quantity, str | Quantity] | None = None, couple: tuple[str | Quantity, str | Quantity] | None = None, *, cap: str | Quantity | Iterable[str | Quantity]) -> PlasticBounds:
        """
        Bounds how many times the load the group carries if every rivet gives way at its cap without breaking.

        It presumes ductile rivets: that none breaks and no sheet tears before the last ones reach their caps. Unless
        tests show it, use `elastic`, which is the default.

        Args:
            x: Force along x, such as ``"900 N"``.
            y: Force along y.
            at: A point on the line of the force, x and y; must be given with a force.
            couple: A couple besides, anticlockwise, as one of its two forces and the distance between them.
            cap: Force at which a rivet gives way, such as ``"3 kN"``: one for all, or a list with one for each rivet.

        Returns:
            The bounds, with the forces that prove the lower one.

        Raises:
            InputError: No load; a force without its line; caps that are not one for each rivet or that no rivet has; a
                single rivet loaded off its centre.
            QuantityError: A quantity without a unit, or with one of another kind.
            TypeError: `at` or `couple` is no pair.

        Example:
            >>> import raisedbody as rb
            >>> group = rb.RivetGroup([("-50 mm", "0 mm"), ("0 mm", "0 mm"), ("50 mm", "0 mm")])
            >>> round(group.plastic(couple=("1 kN", "100 mm"), cap="3 kN").factor, 3)
            3.0
        """
    def to_dict(self, /) -> dict[str, Any]:
        """
        Places and diameters by name.
        """

@final
class RollSetting:
    """
    How to set a three-roll bender for a radius; `ThreeRoll.setting` makes it. Cannot be changed.

    Roll a strip of the same coil first: the yield strength decides, and a certificate tells it better than a grade.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, ...]: ...
    def __repr__(self, /) -> str: ...
    @property
    def final_mm(self, /) -> float:
        """
        Inside radius that is wanted, mm.
        """
    @property
    def flat_mm(self, /) -> float:
        """
        Sheet that stays flat at each end, mm.
        """
    @property
    def loaded_mm(self, /) -> float:
        """
        Inside radius under load to roll to, mm.
        """
    @property
    def radius_per_mpa_mm(self, /) -> float:
        """
        How much gentler the final radius is for each MPa more of yield strength at this setting, mm.
        """
    @property
    def radius_per_tenth_mm(self, /) -> float:
        """
        Final radius lost for each 0.1 mm more of travel, mm.
        """
    def to_dict(self, /) -> dict[str, Any]:
        """
        The values by name, each ending in its unit.
        """
    @property
    def travel_mm(self, /) -> float:
        """
        Travel of the top roll after it touches the flat sheet, mm.
        """
    @property
    def travel_per_mm(self, /) -> float:
        """
        Travel for each mm less of final radius, mm.
        """

@final
class Schedule:
    """
    Who does what on which day, limited by people, rivet tools and hours of the day. Cannot be changed.

    Each task in turn gets the first moment at which people and tools are free, the one with the longest chain behind it first;
    passes backwards and forwards improve that, and of six tasks or fewer every order is tried. It is good, not proved best:
    `gap_ratio` says how far from the best it is at most. The same job gives the same schedule on every machine.

    Args:
        tasks: The tasks; whose turn it is where all else is equal follows from their order.
        people: People at work every day.
        day: Hours of work in a day, in one piece, such as ``"8 h"``.
        start: Start of work, such as ``"8:00"``.
        tools: Rivet tools.
        openings: Places where rain gets in, each as its name, the tasks that open it and those that close it again.
        close_same_day: Nothing is opened that cannot be closed on the same day.

    Raises:
        InputError: No task; a name that is twice or unknown; more people or tools than there are; tasks that wait for each
            other; a task that fits in no day; an opening that no day closes.
        QuantityError: A quantity without a unit, or with one of another kind.

    Example:
        >>> import raisedbody as rb
        >>> tasks = [
        ...     rb.Task("hang A1", "hang", work="2 h"),
        ...     rb.Task("hang A2", "hang", work="2 h", after=["hang A1"]),
        ...     rb.Task("rivet A1", "rivet", work="3 h", after=["hang A1"]),
        ... ]
        >>> schedule = rb.Schedule(tasks, people=3, day="8 h", start="8:00", tools=1)
        >>> schedule.by_day["start"].tolist(), round(schedule.makespan_h, 3), schedule.gap_ratio
        (['08:00', '08:40', '10:10'], 2.833, 0.0)
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __len__(self, /) -> int: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(cls, /, tasks: Iterable[Task], *, people: SupportsIndex, day: str | Quantity, start: str, tools: SupportsIndex, openings: Iterable[tuple[str, Iterable[str], Iterable[str]]] | None = None, close_same_day: bool = False) -> Schedule: ...
    def __reduce__(self, /) -> tuple[Any, ...]: ...
    def __repr__(self, /) -> str: ...
    def __str__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def by_day(self, /) -> Table:
        """
        The work day by day, a task that the night cuts once for each day: day, start, end, end_day (another day for what goes
        on at night), task, kind, on, people, tools, waits_for.
        """
    @property
    def by_task(self, /) -> Table:
        """
        Every task, in the order given: task, kind, on, people, tools, labour_h, start_h and end_h (by the clock since the
        start of work on day 1), day, start, end_day, end (times of day to the minute), waits_for, critical.
        """
    @property
    def critical_chain(self, /) -> tuple[str, ...]:
        """
        The tasks that decide the end, in order of time: each waits for the one before, or for its people.
        """
    @property
    def evenings(self, /) -> Table:
        """
        The body at the end of each day: day, hung (on that day), hung_count and sealed_count (by then), weathertight (``"yes"``,
        ``"no"``, or ``"not known"`` without openings), open.
        """
    @property
    def gap_ratio(self, /) -> float:
        """
        How much longer than the lower bound it is, as a share; nought is proved best.
        """
    @property
    def labour_h(self, /) -> float:
        """
        Hours of one person, all tasks.
        """
    @property
    def lower_bound_h(self, /) -> float:
        """
        The greatest of the three bounds, h.
        """
    @property
    def makespan_h(self, /) -> float:
        """
        From the start of work on day 1 to the end of the last task, by the clock, nights counted, h.
        """
    @property
    def path_bound_h(self, /) -> float:
        """
        What the longest chain of tasks takes with all people free, h, counted like the makespan: no schedule is shorter.
        """
    @property
    def people_bound_h(self, /) -> float:
        """
        What all work takes when it is shared out among the people without a gap, h: no schedule is shorter.
        """
    @property
    def tasks(self, /) -> tuple[Task, ...]:
        """
        The tasks it was made from, in their order.
        """
    def to_dict(self, /) -> dict[str, Any]:
        """
        Numbers and tables as plain values; None for what is not known.
        """
    @property
    def tools_bound_h(self, /) -> float:
        """
        The same for the rivet tools, h.
        """

@final
class Seam:
    """
    A seam of two sheets pulled square to its line, to be set against the sheets themselves. Cannot be changed.

    All strengths are un-factored: least or characteristic values. A sheet counts with its least thickness, coating
    included: as measured, or the least that the ordered gauge's tolerance permits.

    Args:
        outer: The sheet under the rivets' heads.
        inner: The other sheet.
        rivet: The rivet.
        pitch: From rivet to rivet along the line, such as ``"50 mm"``.
        edge: The line to the sheet's edge.
        rows: Lines of rivets side by side, each at the same pitch.
        bearing: The rule for the sheet's bearing round a rivet: ``"EN 1993-1-3"``, which stands where this is left out,
            or ``"AISI S100"`` (screw rules, by analogy).
        tested: Characteristic resistance of one rivet in like laps pulled to failure (`Coupons.characteristic`); in place of the
            rule.

    Raises:
        InputError: A sheet without tensile strength or published tolerance; a rivet without shear load; an unknown rule;
            rule and test together; sizes that no seam has.
        QuantityError: A quantity without a unit, or with one of another kind.

    Example:
        >>> import raisedbody as rb
        >>> sheet = rb.Sheet(thickness="1.1 mm", fu="310 MPa")
        >>> rivet = rb.BlindRivet("6.4 mm", shear="3600 N", hole="6.5 mm")
        >>> seam = rb.Seam(outer=sheet, inner=sheet, rivet=rivet, pitch="50 mm", edge="16 mm")
        >>> seam.benchmark()
        <SeamBenchmark: not assessed, reaches 36 %>
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(cls, /, *, outer: Sheet, inner: Sheet, rivet: BlindRivet, pitch: str | Quantity, edge: str | Quantity, rows: "SupportsIndex" = 1, bearing: str | None = None, tested: TestResult | None = None) -> Seam: ...
    def __reduce__(self, /) -> tuple[Any, ...]: ...
    def __repr__(self, /) -> str: ...
    @property
    def bearing(self, /) -> str | None:
        """
        The rule for bearing; None where a tested load stands in its place.
        """
    def benchmark(self, /) -> SeamBenchmark:
        """
        Sets the seam beside 49 CFR 571.221, the joint rule for school buses.

        The rule is used as a benchmark, not as a duty: a converted bus is no longer sold as a school bus.

        Returns:
            What the rule would ask and what the seam holds.

        Example:
            >>> import raisedbody as rb
            >>> sheet = rb.Sheet(thickness="1.1 mm", fu="310 MPa")
            >>> rivet = rb.BlindRivet("6.4 mm", shear="3600 N", hole="6.5 mm")
            >>> seam = rb.Seam(outer=sheet, inner=sheet, rivet=rivet, pitch="50 mm", edge="16 mm")
            >>> benchmark = seam.benchmark()
            >>> round(benchmark.demand_n), round(benchmark.rivets_n)
            (36214, 13029)
        """
    @property
    def beyond(self, /) -> tuple[str, ...]:
        """
        The limits of the bearing rule that the seam breaks; none for a tested lap. Where there are any, what is made of
        the rivets' strength is withdrawn.
        """
    @property
    def edge_mm(self, /) -> float:
        """
        The line to the sheet's edge, mm.
        """
    def efficiency(self, /) -> SeamEfficiency:
        """
        The seam's strength in parts of the weaker sheet's, on the width of one pitch.

        Returns:
            The efficiencies.

        Example:
            >>> import raisedbody as rb
            >>> sheet = rb.Sheet(thickness="1.2 mm", fu="360 MPa")
            >>> rivet = rb.BlindRivet("6.4 mm", shear="3600 N", hole="6.5 mm")
            >>> rb.Seam(outer=sheet, inner=sheet, rivet=rivet, pitch="50 mm", edge="16 mm").efficiency()
            <SeamEfficiency: gross 17 %, net 19 %>
        """
    @property
    def inner(self, /) -> Sheet:
        """
        The other sheet.
        """
    @property
    def outer(self, /) -> Sheet:
        """
        The sheet under the rivets' heads.
        """
    @property
    def pitch_mm(self, /) -> float:
        """
        From rivet to rivet along the line, mm.
        """
    @property
    def rivet(self, /) -> BlindRivet:
        """
        The rivet.
        """
    @property
    def rows(self, /) -> int:
        """
        Lines of rivets side by side.
        """
    @property
    def tested_n(self, /) -> float | None:
        """
        Characteristic load of one rivet in the tested lap, N; None where a rule stands.
        """
    def to_dict(self, /) -> dict[str, Any]:
        """
        Parts and sizes by name.
        """

@final
class SeamBenchmark:
    """
    A seam beside 49 CFR 571.221 on one segment of 203 mm; `Seam.benchmark` makes it. Cannot be changed.

    The joint rule for school buses (S5.1: 60 % of the weakest panel's strength) is used as a benchmark, not as a duty
    after conversion: what it would ask stands beside what the seam holds and what the factory's held, and an unmet
    benchmark is never a failure. That the holes are subtracted (S6.2) is from memory, as every check's standing says.

    What is made of the rivets' strength is None where the seam breaks a limit of its bearing rule, which `beyond` names.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, ...]: ...
    def __repr__(self, /) -> str: ...
    def against(self, /, factory: SeamBenchmark) -> float | None:
        """
        This seam's strength in parts of another's.

        Args:
            factory: The benchmark of the other seam, say the factory's.

        Returns:
            The ratio; None where either seam breaks a limit of its bearing rule, or the other may hold nothing at all.
        """
    @property
    def beyond(self, /) -> tuple[str, ...]:
        """
        The limits of the bearing rule that the seam breaks.
        """
    @property
    def capacity_n(self, /) -> float | None:
        """
        What the seam holds on the segment, N.
        """
    @property
    def demand_n(self, /) -> float:
        """
        What the rule would ask, holes subtracted, N.
        """
    def explain(self, /, form: str = "text") -> str:
        """
        Every check as a hand calculation: formula, numbers with units, result, clause, standing.

        Args:
            form: ``"text"``, ``"html"`` or ``"latex"``.

        Raises:
            InputError: Another form.
        """
    @property
    def gross_demand_n(self, /) -> float:
        """
        What the rule would ask without subtracting the holes, N.
        """
    @property
    def limits(self, /) -> str | None:
        """
        What limits one rivet: ``"rivet shear"``, ``"bearing"`` or ``"tested lap"``.
        """
    @property
    def net_section_n(self, /) -> float:
        """
        What the weaker sheet holds along one line of holes, N.
        """
    @property
    def per_rivet_n(self, /) -> float | None:
        """
        What one rivet holds, un-factored, N.
        """
    @property
    def pitch_needed_mm(self, /) -> float | None:
        """
        Largest pitch that reaches the benchmark with these rows, mm; None too where not even one of 3 d does.
        """
    @property
    def reached(self, /) -> float | None:
        """
        How much of the benchmark the seam reaches, holes subtracted: 1 is all of it.
        """
    @property
    def rivets_n(self, /) -> float | None:
        """
        What all rivets of the segment hold, N.
        """
    @property
    def rivets_per_row(self, /) -> int:
        """
        Rivets that every segment has, in each row: the least number a randomly placed one can have.
        """
    @property
    def rows_needed(self, /) -> int | None:
        """
        Rows that reach the benchmark at this pitch; None too where a segment may hold no rivet at all.
        """
    @property
    def seam(self, /) -> Seam:
        """
        The seam.
        """
    @property
    def table(self, /) -> Table:
        """
        The checks as a table, as that of a `Report`: strength with and without the holes subtracted, net section,
        unattached segment.
        """
    def to_dict(self, /) -> dict[str, Any]:
        """
        The values by name and the checks, as plain values.
        """
    @property
    def verdict(self, /) -> str:
        """
        ``"passes"`` where all of the benchmark is reached, else ``"not assessed"`` or ``"outside the rule's range"``;
        never ``"fails"``.
        """

@final
class SeamEfficiency:
    """
    A seam's strength in parts of the weaker sheet's; `Seam.efficiency` makes it. Cannot be changed.

    Elementary mechanics on un-factored strengths; rows share the load equally. Every number is None where the seam breaks
    a limit of its bearing rule, which `Seam.beyond` names.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, ...]: ...
    def __repr__(self, /) -> str: ...
    @property
    def balanced_pitch_mm(self, /) -> float | None:
        """
        The pitch at which rivets and net sheet are equally strong, mm: no pitch gives a higher gross efficiency. The
        bearing rule may ask for a wider one.
        """
    @property
    def gross(self, /) -> float | None:
        """
        Against the whole sheet: 1 is all of it.
        """
    @property
    def net(self, /) -> float | None:
        """
        Against the sheet less its holes.
        """
    @property
    def seam(self, /) -> Seam:
        """
        The seam.
        """
    def to_dict(self, /) -> dict[str, Any]:
        """
        The values by name.
        """

@final
class Section:
    """
    A thin-walled section by the line method: its wall is taken as the mid-line with the thickness along it. Cannot be
    changed.

    ``Section.tube``, ``hat``, ``zee``, ``channel`` and ``chain`` make one; ``with_skin`` adds a strip of the sheet that it
    is riveted to. Axes: x runs along the skin, y square to it and away from it; a post that bends out of the plane of the
    skin bends about x. All walls count in full; what buckles before it yields, ``effective`` takes away.

    What the method leaves out, each wall's stiffness about its own mid-line, makes second moments come out a little low:
    0.1 % for a square tube whose wall is a thirtieth of the side, 2 % at an eighth.

    Example:
        >>> import raisedbody as rb
        >>> post = rb.Section.tube("2 in", "1 in", "0.0598 in")
        >>> round(post.area_mm2, 2), round(post.ix_mm4), round(post.torsion_mm4), round(post.mass_kg_m("7850 kg/m3"), 3)
        (222.25, 74346, 57510, 1.745)
        >>> bow = rb.Section.hat("40 mm", "50 mm", "20 mm", "1.5 mm", radius="4 mm")
        >>> skinned = bow.with_skin("0.9 mm", "90 mm")
        >>> skinned.torsion_mm4 > 100 * bow.torsion_mm4  # riveted to the skin it is a cell
        True
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, ...]: ...
    def __repr__(self, /) -> str: ...
    @property
    def area_mm2(self, /) -> float:
        """
        Area of metal, mm2.
        """
    @property
    def centroid_mm(self, /) -> float:
        """
        Height of the centroid above the outer face on the skin's side, mm.
        """
    @property
    def centroid_x_mm(self, /) -> float:
        """
        Distance of the centroid from the leftmost edge, mm.
        """
    @staticmethod
    def chain(points: Iterable[tuple[str | Quantity, str | Quantity]], wall: str | Quantity, radius: str | Quantity | None = None, closed: bool = False) -> Section:
        """
        Any strip bent at points.

        Args:
            points: x and y of the mid-line's corners in order, such as ``[("0 mm", "0 mm"), ("0 mm", "40 mm")]``; where there
                are bends, the points at which the flat parts would meet.
            wall: Wall thickness.
            radius: Radius of the mid-line at every corner: the inside radius and half the wall; sharp where left out.
            closed: Joins the last point to the first.

        Returns:
            The section.

        Raises:
            InputError: Too few points, or more than 200; walls that cross or fold back; a radius that they have no room
                for; sizes that no section has.
            QuantityError: A quantity without a unit, or with one of another kind.
            TypeError: A point that is no pair.

        Example:
            >>> import raisedbody as rb
            >>> angle = rb.Section.chain([("0 mm", "30 mm"), ("0 mm", "0 mm"), ("20 mm", "0 mm")], wall="1.5 mm")
            >>> angle.area_mm2
            75.0
        """
    @staticmethod
    def channel(depth: str | Quantity, flange: str | Quantity, wall: str | Quantity, radius: str | Quantity | None = None) -> Section:
        """
        A channel without lips: a web square to the skin, one flange on the skin, the other turned the same way.

        Args:
            depth: Outside depth, square to the skin.
            flange: Outside width of each flange, over the web.
            wall: Wall thickness.
            radius: Outside radius of the two bends; sharp where left out.

        Returns:
            The section.

        Raises:
            InputError: A size that no section has; a radius that the sides have no room for.
            QuantityError: A quantity without a unit, or with one of another kind.
        """
    @property
    def closed(self, /) -> bool:
        """
        Whether the walls enclose a cell; riveted to a skin an open section still counts as open here.
        """
    @property
    def depth_mm(self, /) -> float:
        """
        Depth over the outer faces, mm.
        """
    @property
    def developed_mm(self, /) -> float:
        """
        Length of the mid-line, mm; of one bent strip its width before bending, on the mid-line.
        """
    def effective(self, /, stress: str | Quantity, fy: str | Quantity, *, method: str = "EN 1993-1-5", compressed: str = "away") -> EffectiveSection:
        """
        What is left of the section when a moment about x compresses one side; the rules are from memory.

        Each compressed flat wall loses the part that its rule takes for its own stresses; the neutral axis moves until it is
        the centroid of what is left. The section is held against bending sideways, as by its skin. Bends count in full,
        and so does a strip of skin. Lips, shear and sideways buckling are not covered; no safety factor is in it.

        Args:
            stress: Greatest compressive stress that the moment makes, at most `fy`.
            fy: Yield strength.
            method: Whose widths: ``"EN 1993-1-5"`` or ``"AISI S100"``, both for steel.
            compressed: Which side the moment compresses: ``"away"`` from the skin, or the ``"skin"`` side.

        Returns:
            The effective section.

        Raises:
            InputError: A stress above yield; an unknown method or side; walls too slender or bends too large for the rule; a
                wall that is held only by a lip or by a slight bend.
            QuantityError: A quantity without a unit, or with one of another kind.

        Example:
            >>> import raisedbody as rb
            >>> bow = rb.Section.hat("40 mm", "80 mm", "20 mm", "0.9 mm")
            >>> left = bow.effective("230 MPa", fy="230 MPa")
            >>> crown = next(row for row in left.walls.rows() if row["wall"] == 2)
            >>> round(crown["lambda"], 3), round(crown["rho"], 3)
            (1.531, 0.559)
        """
    @property
    def enclosed_mm2(self, /) -> float:
        """
        Area that the mid-line of a closed section encloses, mm2; 0 for an open one.
        """
    @staticmethod
    def hat(depth: str | Quantity, crown: str | Quantity, flange: str | Quantity, wall: str | Quantity, radius: str | Quantity | None = None) -> Section:
        """
        A hat: crown away from the skin, two webs square to it, two flanges turned outward that lie on it.

        Args:
            depth: Outside depth, from the flanges' face on the skin to the crown's outer face.
            crown: Outside width of the crown, over both webs.
            flange: Width of each flange, from the web's outside face to the free edge.
            wall: Wall thickness.
            radius: Outside radius of the four bends; sharp where left out.

        Returns:
            The section.

        Raises:
            InputError: A size that no section has; a wall that leaves no hollow; a radius that the sides have no room for.
            QuantityError: A quantity without a unit, or with one of another kind.
        """
    @property
    def i_major_mm4(self, /) -> float:
        """
        The greater principal second moment, mm4.
        """
    @property
    def i_minor_mm4(self, /) -> float:
        """
        The smaller principal second moment, mm4.
        """
    @property
    def ix_mm4(self, /) -> float:
        """
        Second moment about the axis along the skin, mm4.
        """
    @property
    def ixy_mm4(self, /) -> float:
        """
        Product of the second moments, mm4.
        """
    @property
    def iy_mm4(self, /) -> float:
        """
        Second moment about the axis square to the skin, mm4.
        """
    @property
    def major_axis_deg(self, /) -> float:
        """
        The principal axis of the greater second moment, counter-clockwise from x, degrees.
        """
    def mass_kg_m(self, /, density: str | Quantity) -> float:
        """
        Mass per length, kg/m, the strip of skin too.

        Args:
            density: Density of the metal, such as ``"7850 kg/m3"``.

        Raises:
            InputError: A density that no metal has.
            QuantityError: A quantity without a unit, or with one of another kind.
        """
    @property
    def shape(self, /) -> str:
        """
        Shape: ``"tube"``, ``"hat"``, ``"zee"``, ``"channel"`` or ``"chain"``.
        """
    @property
    def skin_thickness_mm(self, /) -> float | None:
        """
        Thickness of the strip of skin, mm; None where there is none.
        """
    @property
    def skin_width_mm(self, /) -> float | None:
        """
        Width of the strip of skin, mm; None where there is none.
        """
    @property
    def sx_away_mm3(self, /) -> float:
        """
        Elastic modulus about x at the face away from the skin, mm3.
        """
    @property
    def sx_mm3(self, /) -> float:
        """
        Elastic modulus about x at the outer face farther from the centroid, mm3.
        """
    @property
    def sx_skin_mm3(self, /) -> float:
        """
        Elastic modulus about x at the face on the skin's side, mm3.
        """
    @property
    def sy_mm3(self, /) -> float:
        """
        Elastic modulus about y at the outermost edge, mm3.
        """
    def to_dict(self, /) -> dict[str, Any]:
        """
        The values by name, each ending in its unit; None for a strip of skin that is not there.
        """
    @property
    def torsion_mm4(self, /) -> float:
        """
        Torsion constant, mm4: Bredt's of the cell, and l t³ / 3 of every wall outside it.
        """
    @staticmethod
    def tube(depth: str | Quantity, width: str | Quantity, wall: str | Quantity, radius: str | Quantity | None = None) -> Section:
        """
        A rectangular tube; the torsion constant is that of a closed one, welded along its seam.

        Args:
            depth: Outside depth, square to the skin.
            width: Outside width, along the skin.
            wall: Wall thickness; measure it, as gauges of tube differ from those of sheet.
            radius: Outside radius of the corners; sharp where left out. Half of both sides makes it a round tube.

        Returns:
            The section.

        Raises:
            InputError: A size that no section has; a wall that leaves no hollow; a radius above half the smaller side.
            QuantityError: A quantity without a unit, or with one of another kind.
        """
    @property
    def width_mm(self, /) -> float:
        """
        Width over the outermost edges, mm.
        """
    def with_skin(self, /, thickness: str | Quantity, width: str | Quantity) -> Section:
        """
        The section riveted to a strip of skin, centred on what lies on the skin's side; both bend as one, without slip.

        An open section with two feet on the skin, as a hat has, closes to a cell with it, riveted along the middle of each
        foot; rivets that give way make its torsion constant less.

        Args:
            thickness: Thickness of the skin.
            width: Width of the strip that counts, both sides together; see ``skin_strips``.

        Returns:
            The section with its strip.

        Raises:
            InputError: A strip that no skin has; a section that has one already, or no flat wall on the skin's side.
            QuantityError: A quantity without a unit, or with one of another kind.
        """
    @staticmethod
    def zee(depth: str | Quantity, flange: str | Quantity, wall: str | Quantity, radius: str | Quantity | None = None) -> Section:
        """
        A zee without lips: a web square to the skin, one flange on the skin, the other turned the other way.

        Its principal axes are not x and y: unless the skin keeps it from it, it bends sideways too.

        Args:
            depth: Outside depth, square to the skin.
            flange: Outside width of each flange, over the web.
            wall: Wall thickness.
            radius: Outside radius of the two bends; sharp where left out.

        Returns:
            The section.

        Raises:
            InputError: A size that no section has; a radius that the sides have no room for.
            QuantityError: A quantity without a unit, or with one of another kind.
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
    def least_mm(self, /) -> float | None:
        """
        Least thickness, coating included, mm: as measured, or what the ordered gauge's tolerance permits; None where no
        tolerance is published.
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

@final
class SheetCuts:
    """
    Pieces cut from whole sheets by cuts from edge to edge, at the least price that is found, with a proven bound below which no
    plan can lie. Cannot be changed.

    The search takes the same steps on every machine and ends by itself; interrupted, or at its time limit, it gives the best
    plan so far. Of equal prices it prefers fewer sheets, then fewer ways of cutting, then the largest rest worth keeping; only
    the price is proved.

    Args:
        sheets: Whole sheets, each a mapping as in a plan's ``cutting.sheets``: `length` (the way of the grain), `width`,
            `price`, and where wanted `count`, `supplier`, `cut` (the seller's charge for a cut), `mill_edge`, `end_trim`.
        blanks: What is needed, each a mapping: `name`, `length` (along the sheet), `width`, and where wanted `count`,
            `may_turn`, `price` (cut to size by a supplier, who keeps the waste).
        shear: What cuts in the shop, a mapping as in a plan's ``cutting.shear``: `longest_cut`, `cut_time`, and where wanted
            `throat`, `kerf`, `stages`, `first_cut`.
        keep: Least rest worth keeping: `length` and `width`.
        labour: Price of an hour of one person, by which cuts in the shop are reckoned, such as ``"85 USD/h"``; without it they
            cost nothing.
        units: ``"inches"`` or ``"metric"`` (also where left out): how lengths are printed.
        time_limit: Stops the search, such as ``"10 s"``; what it has found then may differ from one run to the next.

    Raises:
        InputError: Entries that cannot be used; a blank larger than every sheet; sheets that run out.
        QuantityError: A time limit without a unit.

    Example:
        >>> import raisedbody as rb
        >>> cuts = rb.SheetCuts(
        ...     sheets=[
        ...         {"length": "8 ft", "width": "4 ft", "price": "58 USD"},
        ...         {"length": "10 ft", "width": "4 ft", "price": "71 USD"},
        ...     ],
        ...     blanks=[{"name": "panel", "length": "57 in", "width": "15 in", "count": 9}],
        ...     shear={"longest_cut": "10 ft", "cut_time": "3 min"},
        ... )
        >>> cuts.price, cuts.is_proven, cuts.sheets["times"].tolist()
        ('129.00 USD', True, [1.0, 1.0])
        >>> cuts.faults()
        ()
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(cls, /, *, sheets: Iterable[Mapping[str, Any]], blanks: Iterable[Mapping[str, Any]], shear: Mapping[str, Any] | None = None, keep: Mapping[str, Any] | None = None, labour: str | None = None, units: str | None = None, time_limit: str | Quantity | None = None) -> SheetCuts: ...
    def __reduce__(self, /) -> tuple[Any, ...]: ...
    def __repr__(self, /) -> str: ...
    def __str__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def bought(self, /) -> tuple[str, ...]:
        """
        Blanks that are bought cut to size.
        """
    @property
    def cuts(self, /) -> Table:
        """
        Every cut in order: first (its sheet), cut (counted from 1), part (empty for the sheet), line (``"along"`` or
        ``"across"``), stop_mm (size of what comes off), length_mm (of the cut), words (with the stop as the shop reads it).
        """
    def drawing(self, row: SupportsIndex, /) -> Drawing:
        """
        A row of `sheets` as SVG.

        Args:
            row: Its place in `sheets`, counted from 0.

        Returns:
            The drawing; it shows itself in a notebook.

        Raises:
            InputError: There is no such row.
        """
    def faults(self, /) -> tuple[str, ...]:
        """
        What a checker finds that knows nothing of the search: sizes, places, overlaps, cuts from edge to edge and their order,
        machine, stages, demand, stock, price. Nothing where all is right.
        """
    @property
    def gap_ratio(self, /) -> float | None:
        """
        How far the price lies above the bound, in parts of the bound; None where the bound is nought and the price is not.
        """
    @property
    def is_proven(self, /) -> bool:
        """
        No plan can cost less.
        """
    @property
    def lower_bound(self, /) -> str:
        """
        No plan costs less than this: proved in whole coins.
        """
    @property
    def notes(self, /) -> tuple[str, ...]:
        """
        Sheets of the list that the shop does not cut, each with why; what the list does not look at.
        """
    @property
    def places(self, /) -> Table:
        """
        Where each piece and each rest lies on its sheet, from the start and the lower edge inside trimmed edges: first (its
        sheet), name (empty for a rest; one name for each of the sheets cut alike), along_mm, up_mm, length_mm, width_mm, turned,
        kept.
        """
    @property
    def price(self, /) -> str:
        """
        Price of sheets, cuts and blanks bought cut to size, exact, with its currency.
        """
    @property
    def purchases(self, /) -> Table:
        """
        What to buy, or to take from the shop: item, supplier (empty for the shop), count, unit, price (of one).
        """
    @property
    def remnants(self, /) -> tuple[dict[str, Any], ...]:
        """
        Rests worth keeping, as rows of stock for the next job's `sheets`, largest first.
        """
    @property
    def sheets(self, /) -> Table:
        """
        Sheets that are cut alike, a row each: first (number of the first, counted from 1), times, size, supplier, cut_by,
        price (of one sheet), pieces, used_ratio (share of the sheet that becomes pieces).
        """
    def to_dict(self, /) -> dict[str, Any]:
        """
        Numbers and tables as plain values; None for what is not known.
        """

@final
class SolAir:
    """
    A sheet in the sun. Cannot be changed.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, ...]: ...
    def __repr__(self, /) -> str: ...
    @property
    def absorptance(self, /) -> float:
        """
        Share of the sun that is taken up.
        """
    @property
    def source(self, /) -> str:
        """
        Where the absorptance is from.
        """
    @property
    def standing(self, /) -> str:
        """
        How firmly all is known.
        """
    @property
    def temperature_deg_c(self, /) -> float:
        """
        Sol-air temperature, °C: an upper bound for a sheet that also loses heat inwards.
        """
    def to_dict(self, /) -> dict[str, Any]:
        """
        The values by name, each ending in its unit.
        """

@final
class SpaceFrame:
    """
    A space frame of straight beams joined stiffly and of bars pinned at both ends, by the direct stiffness method. Cannot be
    changed.

    Axes are right-handed, z up; moments and rotations by the right-hand rule. Beams stretch, bend about both their axes and
    twist by elementary theory. A beam's own x runs along it, its y lies in the plane of its run and of ``up`` (z of the frame,
    or x for an upright beam), its z level.

    Args:
        nodes_mm: Place of each node, an array of three columns, mm.
        members: The two nodes of each member, from 0.
        bars: Members that are bars pinned at both ends, from 0; the others are beams.
        area_mm2: Area of the members' sections, one for all or one each, mm2.
        modulus_mpa: Modulus of elasticity, MPa.
        second_moment_y_mm4: Second moment about a beam's own y, which bends it sideways; needless where all are bars.
        second_moment_z_mm4: Second moment about a beam's own z, which bends it up and down.
        torsion_mm4: Torsion constant of St Venant.
        shear_modulus_mpa: Shear modulus, MPa.
        up: Where a member's own y points to, by member, as (x, y, z).
        pinned: Nodes held in place, free to turn.
        fixed: Nodes held in place and against turning.
        held: Other nodes and the directions they are held in: ``"x"``, ``"y"``, ``"z"``, ``"about x"``, ``"about y"``,
            ``"about z"``.
        springs: Nodes held by springs, by direction: N/mm, or N mm/rad about an axis.

    Raises:
        InputError: A node, member or support that cannot be (it is named); arrays of another shape.

    Example:
        >>> import raisedbody as rb
        >>> tripod = rb.SpaceFrame(
        ...     [[1000, 0, 0], [-500, 866, 0], [-500, -866, 0], [0, 0, 2000]], [(0, 3), (1, 3), (2, 3)],
        ...     bars=[0, 1, 2], area_mm2=200, modulus_mpa=205e3, pinned=[0, 1, 2],
        ... )
        >>> pressed = tripod.solve([rb.SpaceLoad(3, z_n=-3000)])
        >>> [round(float(n)) for n in pressed.members["axial_n"]]
        [-1118, -1118, -1118]
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(cls, /, nodes_mm: ArrayLike, members: Iterable[tuple[SupportsIndex, SupportsIndex]], *, bars: Iterable[SupportsIndex] = ..., area_mm2: ArrayLike, modulus_mpa: ArrayLike, second_moment_y_mm4: ArrayLike | None = None, second_moment_z_mm4: ArrayLike | None = None, torsion_mm4: ArrayLike | None = None, shear_modulus_mpa: ArrayLike | None = None, up: dict[SupportsIndex, tuple[SupportsFloat | SupportsIndex, SupportsFloat | SupportsIndex, SupportsFloat | SupportsIndex]] = ..., pinned: Iterable[SupportsIndex] = ..., fixed: Iterable[SupportsIndex] = ..., held: dict[SupportsIndex, SupportsGetItem[int, str]] = ..., springs: dict[SupportsIndex, dict[str, SupportsFloat | SupportsIndex]] = ...) -> SpaceFrame: ...
    def __reduce__(self, /) -> tuple[Any, ...]: ...
    def __repr__(self, /) -> str: ...
    def critical_load_factor(self, /, loads: Iterable[SpaceLoad]) -> float | None:
        """
        How many times these loads buckle the frame (linearised, by geometric stiffness).

        Args:
            loads: The loads, all acting together.

        Returns:
            The factor; None where the loads press no member.

        Raises:
            InputError: As solve.
        """
    @property
    def freedoms(self, /) -> int:
        """
        Directions in which its nodes can move.
        """
    def solve(self, /, loads: Iterable[SpaceLoad]) -> SpaceFrameResult:
        """
        Solves for one load case.

        Args:
            loads: The loads, all acting together.

        Returns:
            Displacements, reactions and forces.

        Raises:
            InputError: A load that cannot be; a mechanism, told with the node and the direction that runs away.
        """

@final
class SpaceFrameResult:
    """
    The answer to one load case of a space frame; `SpaceFrame.solve` makes it. Cannot be changed.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, ...]: ...
    def __repr__(self, /) -> str: ...
    @property
    def members(self, /) -> Table:
        """
        Each member's length, axial force (tension above nought) and, in its own axes, the moments that the nodes exert on
        both its ends: torsion_n_mm, start_moment_y_n_mm, start_moment_z_n_mm, end_moment_y_n_mm, end_moment_z_n_mm.
        """
    @property
    def nodes(self, /) -> Table:
        """
        How each node moves: x_mm, y_mm, z_mm, turn_x_rad, turn_y_rad, turn_z_rad.
        """
    @property
    def reactions(self, /) -> Table:
        """
        What the ground exerts on each held node: node, x_n, y_n, z_n, moment_x_n_mm, moment_y_n_mm, moment_z_n_mm.
        """

@final
class SpaceLoad:
    """
    A load on a node of a space frame. Cannot be changed.

    Args:
        node: Which, from 0.
        x_n: Along x, N.
        y_n: Along y, N.
        z_n: Along z, N.
        moment_x_n_mm: About x by the right-hand rule, N mm.
        moment_y_n_mm: About y, N mm.
        moment_z_n_mm: About z, N mm.

    Example:
        >>> from raisedbody import SpaceLoad
        >>> SpaceLoad(3, z_n=-2000)
        SpaceLoad(3, x_n=0.0, y_n=0.0, z_n=-2000.0, moment_x_n_mm=0.0, moment_y_n_mm=0.0, moment_z_n_mm=0.0)
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(cls, /, node: SupportsIndex, *, x_n: "SupportsFloat | SupportsIndex" = 0.0, y_n: "SupportsFloat | SupportsIndex" = 0.0, z_n: "SupportsFloat | SupportsIndex" = 0.0, moment_x_n_mm: "SupportsFloat | SupportsIndex" = 0.0, moment_y_n_mm: "SupportsFloat | SupportsIndex" = 0.0, moment_z_n_mm: "SupportsFloat | SupportsIndex" = 0.0) -> SpaceLoad: ...
    def __reduce__(self, /) -> tuple[Any, ...]: ...
    def __repr__(self, /) -> str: ...

@final
class Spacing:
    """
    How close and how far apart the rivets of one line may stand, by every rule that has a say. Cannot be changed.

    Rules made for plate can ask the impossible of sheet; `conflicts` names those that no distance can keep together.
    `compression_stress`, `fy`, `modulus` and `flat_width` go together, for a sheet that is pressed along the line.

    Args:
        diameter: Rivet, such as ``"6.4 mm"`` or ``"1/4 in"``.
        hole: Hole as drilled.
        thickness: The thinner outside sheet.
        pull: Which way the sheets pull: ``"across"`` the line, ``"along"`` it, or ``"both"``, which also stands for not
            known.
        pitch: Pitch, for rules that set the distance between lines by it.
        countersunk: Countersunk heads.
        exposed: Open to weather or spray.
        bare_weathering_steel: Weathering steel left bare; otherwise painted or coated.
        compression_stress: Compressive stress in the sheet under the design load, such as ``"100 MPa"``.
        fy: Yield strength of the sheet.
        modulus: Modulus of elasticity of the sheet, such as ``"205 GPa"``.
        flat_width: Flat width of the narrowest free strip beside the line.
        families: Whose rules: ``"EN 1993-1-3"``, ``"AISI S100"``, ``"EN 1993-1-8"``, ``"aircraft"``, ``"sealing"``; all
            where left out.

    Raises:
        InputError: An unknown family or pull; some, but not all, of what a compressed sheet needs; sizes or strengths
            that no riveted line has.
        QuantityError: A quantity without a unit, or with one of another kind.

    Example:
        >>> import raisedbody as rb
        >>> spacing = rb.Spacing("6.4 mm", hole="6.5 mm", thickness="1.2 mm", exposed=True,
        ...                      families=["EN 1993-1-3", "EN 1993-1-8"])
        >>> round(spacing.least_mm("pitch"), 3), round(spacing.most_mm("pitch"), 3)
        (19.2, 16.8)
        >>> len(spacing.conflicts)
        2
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(cls, /, diameter: str | Quantity, *, hole: str | Quantity, thickness: str | Quantity, pull: str = "both", pitch: str | Quantity | None = None, countersunk: bool = False, exposed: bool = False, bare_weathering_steel: bool = False, compression_stress: str | Quantity | None = None, fy: str | Quantity | None = None, modulus: str | Quantity | None = None, flat_width: str | Quantity | None = None, families: Iterable[str] | None = None) -> Spacing: ...
    def __reduce__(self, /) -> tuple[Any, ...]: ...
    def __repr__(self, /) -> str: ...
    def check(self, /, *, pitch: str | Quantity | None = None, rows: str | Quantity | None = None, edge: str | Quantity | None = None, end: str | Quantity | None = None) -> Table:
        """
        Checks planned distances by every rule; those not given stay not assessed.

        A habit or a suggestion is not failed but pointed out. A greatest distance under a required least one, and a rule
        that does not cover rivets of this size, is outside its range.

        Args:
            pitch: From rivet to rivet along the line; that of the spacing where left out.
            rows: From line to line.
            edge: From the line to the sheet's edge beside it.
            end: From the last rivet to the sheet's end, along the line.

        Returns:
            The checks, with the columns of `Report.table`.

        Raises:
            InputError: A distance that no riveted line has.
            QuantityError: A quantity without a unit, or with one of another kind.

        Example:
            >>> import raisedbody as rb
            >>> spacing = rb.Spacing("6.4 mm", hole="6.5 mm", thickness="1.2 mm", families=["EN 1993-1-3"])
            >>> checks = spacing.check(pitch="19 mm", edge="9.6 mm")
            >>> dict(zip(checks["name"].tolist(), checks["verdict"].tolist()))["pitch, least"]
            'fails'
        """
    @property
    def conflicts(self, /) -> tuple[str, ...]:
        """
        Every pair of required rules, both for rivets of this size, that no distance can keep together.
        """
    @property
    def families(self, /) -> tuple[str, ...]:
        """
        Whose rules are asked.
        """
    def least_mm(self, distance: str, /) -> float | None:
        """
        The least distance that keeps every required rule that covers this rivet.

        Args:
            distance: ``"pitch"``, ``"rows"``, ``"edge"`` or ``"end"``.

        Returns:
            The distance, mm; None where no such rule sets one.

        Raises:
            InputError: An unknown distance.
        """
    def most_mm(self, distance: str, /) -> float | None:
        """
        The greatest distance that keeps every required rule that covers this rivet.

        Args:
            distance: ``"pitch"``, ``"rows"``, ``"edge"`` or ``"end"``.

        Returns:
            The distance, mm; None where no such rule sets one.

        Raises:
            InputError: An unknown distance.
        """
    @property
    def table(self, /) -> Table:
        """
        Every rule: distance (``"pitch"``, ``"rows"``, ``"edge"``, ``"end"``), side (``"least"`` or ``"most"``), bound_mm,
        formula, family, clause, source, required (else a habit or a suggestion), covered (the rule is for rivets of this
        size), standing.
        """
    def to_dict(self, /) -> dict[str, Any]:
        """
        What was given, by name, and the rows of `table`.
        """

@final
class Splices:
    """
    How the inserts of a plan are joined to its posts; `Evaluation.splices` holds it. Cannot be changed.

    An insert nests where it goes in with every tolerance against it. The plan is worked out raised straight up, where leaning
    sides bend each insert at both cuts; what following the lean would ask instead is told beside it.

    Example:
        >>> import raisedbody as rb
        >>> splices = rb.Plan.read("examples/mobile_library.toml").evaluate().splices
        >>> len(splices.inserts["id"]), splices.splices_count, round(splices.roof_too_wide_mm, 1)
        (20, 40, 37.5)
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, ...]: ...
    def __repr__(self, /) -> str: ...
    def __str__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def fastener_n(self, /) -> float | None:
        """
        Design load of the fastener that carries most, N; None where it is not known.
        """
    @property
    def fastener_spacing_mm(self, /) -> float | None:
        """
        From one fastener to the next in its line, mm; None where their places are not in the plan.
        """
    @property
    def fasteners_count(self, /) -> int | None:
        """
        Welds or rivets in a splice; None where their places are not in the plan.
        """
    @property
    def fit(self, /) -> str | None:
        """
        ``"inside"`` or ``"over"`` the posts; None where the plan says nothing of splices.
        """
    @property
    def inserts(self, /) -> Table:
        """
        The cut list, left side first, rear to front: id, side, post, length_mm, lower_bend_deg, upper_bend_deg (raised straight
        up), folded (sawn through three walls and folded at both bends, as the post leaves no room to tilt), shim_gauge,
        shim_mm, drain_hole, bar (counted from 1; NaN where it is joined from several).
        """
    @property
    def leaning(self, /) -> Table:
        """
        Each side's lean at the cut and what it asks: side, lean_below_deg, lean_above_deg; raised straight up kink_lower_deg,
        kink_upper_deg, tilt_mm (play in depth that an unbent insert needs); following the lean inwards_mm,
        following_length_mm, following_kink_deg.
        """
    @property
    def middle_to_left_mm(self, /) -> float:
        """
        Following the lean: how far the middle between the posts moves to the left, mm; nought where both sides lean alike.
        """
    @property
    def moment_n_mm(self, /) -> float | None:
        """
        Largest design moment at the cut of a post, however its foot is held, N·mm; None where it is not known.
        """
    @property
    def nesting(self, /) -> Table:
        """
        How each insert nests: id, side, post, fits, then mm: beside_mm (gap on each face beside), beside_least_mm and
        depth_least_mm (with the tolerances against it; below nought the parts interfere), depth_mm (play square to the skin),
        corner_least_mm (NaN where the faces meet before the corners), held_off_mm, step_mm (above nought the insert's outer
        face stands back from the post's), step_left_mm (after the shim). NaN where the splice or the post is not in the plan.
        """
    @property
    def notes(self, /) -> tuple[str, ...]:
        """
        What to know: zinc, drains, the roof's width against leaning sides.
        """
    @property
    def roof_too_wide_mm(self, /) -> float:
        """
        Following the lean: how much wider the roof is than the posts it is to stand on, mm.
        """
    @property
    def roof_width_mm(self, /) -> float:
        """
        Width over the drip rails, which the roof keeps, mm.
        """
    @property
    def splices_count(self, /) -> int:
        """
        Joints of inserts with posts: two for each insert.
        """
    def to_dict(self, /) -> dict[str, Any]:
        """
        The values and tables by name; None for what is not known.
        """

@final
class Springback:
    """
    Springback of sheet bent far past yield. Cannot be changed.

    R_i / R_f = 4 x³ - 3 x + 1 with x = R_i Y / (E t), from forming handbooks; R_i is the radius under load, R_f the one that
    is left. It holds for x from 0 to 0.5; at 0.5 the sheet is bent elastically and springs back flat, beyond it is refused.
    Wide sheet bends in plane strain, with E / (1 - ν²) and 1.15 Y (from memory).

    Args:
        thickness: Metal of the sheet.
        fy: Yield strength. A grade's least one understates springback, as real sheet is stronger: a coupon's is better.
        modulus: Modulus of elasticity, such as ``"205 GPa"``.
        poisson: Poisson's ratio, for sheet wide against its thickness; None for a strip free to narrow.

    Raises:
        InputError: A size, strength or ratio that no sheet has.
        QuantityError: A quantity without a unit, or with one of another kind.

    Example:
        >>> import raisedbody as rb
        >>> strip = rb.Springback(thickness="0.9 mm", fy="250 MPa", modulus="205 GPa", poisson=None)
        >>> round(strip.final_mm("38 mm"), 2)
        44.91
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(cls, /, *, thickness: str | Quantity, fy: str | Quantity, modulus: str | Quantity, poisson: "SupportsFloat | SupportsIndex | None" = 0.3) -> Springback: ...
    def __reduce__(self, /) -> tuple[Any, ...]: ...
    def __repr__(self, /) -> str: ...
    def final_mm(self, radius: str | Quantity, /) -> float:
        """
        The radius that a bend opens to when it is let go, mm.

        Args:
            radius: Inside radius under load.

        Raises:
            InputError: A radius that no bend has, or so gentle that the sheet springs back flat.
            QuantityError: A quantity without a unit, or with one of another kind.
        """
    def final_mm_per_mpa(self, radius: str | Quantity, /) -> float:
        """
        How much gentler the final radius is for each MPa more of yield strength, mm.

        Args:
            radius: Inside radius under load.

        Raises:
            InputError: A radius that no bend has, or so gentle that the sheet springs back flat.
            QuantityError: A quantity without a unit, or with one of another kind.
        """
    @property
    def fy_mpa(self, /) -> float:
        """
        Yield strength, MPa.
        """
    def loaded_mm(self, radius: str | Quantity, /) -> float:
        """
        The radius to bend to under load for one that is wanted, mm: the formula inverted numerically.

        Args:
            radius: Inside radius that is to be left.

        Raises:
            InputError: A radius that no bend has.
            QuantityError: A quantity without a unit, or with one of another kind.

        Example:
            >>> import raisedbody as rb
            >>> strip = rb.Springback(thickness="0.9 mm", fy="230 MPa", modulus="205 GPa", poisson=None)
            >>> round(strip.loaded_mm("150 mm"), 2)
            96.77
        """
    @property
    def modulus_mpa(self, /) -> float:
        """
        Modulus of elasticity, MPa.
        """
    @property
    def poisson(self, /) -> float | None:
        """
        Poisson's ratio; None for a strip free to narrow.
        """
    @property
    def thickness_mm(self, /) -> float:
        """
        Metal of the sheet, mm.
        """
    def to_dict(self, /) -> dict[str, Any]:
        """
        The values by name, each ending in its unit.
        """

@final
class Squareness:
    """
    A roof measured up: its motion, which corner goes which way, and go or no-go; `MeasureUp.fit` makes it. Cannot be
    changed.

    "go" says that the roof is square within the planner's tolerance as measured; it says nothing of supports, braces or
    strength. Lengths after a plus-minus sign are half of the interval that holds the true value with 95 %.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, ...]: ...
    def __repr__(self, /) -> str: ...
    def __str__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def checks(self, /) -> Table:
        """
        Each post and direction against the planner's tolerance; columns as of `Evaluation.checks`. A demand is the deviation
        with its measuring error on top.
        """
    @property
    def chi_square(self, /) -> float:
        """
        Sum of the squares of residuals over errors.
        """
    @property
    def decision(self, /) -> str:
        """
        ``"go"``, ``"no-go"`` or ``"measure again"``.
        """
    def explain(self, /) -> str:
        """
        Every check as a hand calculation.
        """
    @property
    def freedoms(self, /) -> int:
        """
        Readings beyond those that the motion needs.
        """
    @property
    def length_mm(self, /) -> float:
        """
        Length that pitch, yaw, twist and sag are told over, mm.
        """
    @property
    def measure_up(self, /) -> MeasureUp:
        """
        The measure-up that was fitted.
        """
    @property
    def moves(self, /) -> Table:
        """
        How each corner goes, all steps together: step (``"all"``), corner, x_mm, y_mm, forward_mm, left_mm, up_mm, each with
        its within_mm (95 %). Back, right and down are below nought.
        """
    @property
    def parameters(self, /) -> Table:
        """
        The motion: name, value_mm, standard_mm (one standard deviation), low_mm and high_mm (95 %), meaning of a value above
        nought. NaN where the readings do not tell it.
        """
    @property
    def probability(self, /) -> float | None:
        """
        Chance of so much scatter or more, were the errors as stated; None without readings to spare.
        """
    @property
    def residuals(self, /) -> Table:
        """
        Every reading against the fit: name, departure_mm from the reading before the cut and the planned raise, fitted_mm,
        residual_mm, error_mm (one standard deviation, both readings counted), normalised (NaN where no other reading checks
        it).
        """
    @property
    def stage(self, /) -> str:
        """
        When it was measured.
        """
    @property
    def steps(self, /) -> Table:
        """
        The same step by step, in the order of the work: level, twist, square, width, shift. Columns as of `moves`.
        """
    def to_dict(self, /) -> dict[str, Any]:
        """
        Numbers and tables as plain values; None for what is not known.
        """
    @property
    def undetermined(self, /) -> tuple[str, ...]:
        """
        Names of the parameters that the readings do not tell.
        """
    @property
    def unused(self, /) -> Table:
        """
        Readings that could not be used: name, reason.
        """
    @property
    def verdict(self, /) -> str:
        """
        The worst verdict among the checks: ``"passes"``, ``"not assessed"`` or ``"fails"``.
        """
    @property
    def width_mm(self, /) -> float:
        """
        Width that roll, twist, racking and spread are told over, mm.
        """

@final
class Sweep:
    """
    Every combination of the values of some entries, and what each comes to; `Plan.sweep` makes it. Cannot be changed.

    It pickles as the plan and what varies, and is worked out again where it is read.

    Example:
        >>> import raisedbody as rb
        >>> sweep = rb.Plan.read("examples/workshop_bus.toml").sweep({"skin.gauge": [16, 18, 20]})
        >>> len(sweep)
        3
        >>> sweep.plan(0).to_dict()["skin"]["gauge"]
        16
    """
    def __copy__(self, /) -> Sweep: ...
    def __deepcopy__(self, _memo: Any, /) -> Sweep: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __len__(self, /) -> int: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, ...]: ...
    def __repr__(self, /) -> str: ...
    @property
    def axes(self, /) -> tuple[str, ...]:
        """
        Paths of the entries that vary.
        """
    def choose(self, /, minimise: Iterable[str] | None = None, maximise: Iterable[str] | None = None, limits: Mapping[str, tuple[SupportsFloat | SupportsIndex | None, SupportsFloat | SupportsIndex | None]] | None = None) -> Choice:
        """
        Those combinations that no other beats in all that is wanted, among those that keep every limit.

        Args:
            minimise: Names of numbers that are to be small.
            maximise: Names of numbers that are to be large.
            limits: Least and most value that a number must keep, itself among them, by its name; None for no bound:
                ``{"rear_axle_margin_kg": (0, None)}``.

        Returns:
            The choice, and of each option what keeps it from being better.

        Raises:
            InputError: Nothing is wanted or more than eight numbers are, a name that is no number of the sweep or is there
                twice, or a limit without a bound or with its bounds the wrong way round.

        Example:
            >>> import raisedbody as rb
            >>> sweep = rb.Plan.read("examples/workshop_bus.toml").sweep({"skin.gauge": [16, 18, 20]})
            >>> choice = sweep.choose(minimise=["skin_mass_kg"], limits={"sheet_thickness_mm": (1.2, None)})
            >>> choice.table["skin.gauge"].tolist()
            ['18']
        """
    @property
    def names(self, /) -> tuple[str, ...]:
        """
        Names of the numbers.
        """
    def plan(self, row: SupportsIndex, /) -> Plan:
        """
        The whole plan of a combination.

        Args:
            row: Its row, from 0.

        Returns:
            The plan.

        Raises:
            InputError: There is no such row, or the combination cannot be.
        """
    @property
    def shape(self, /) -> tuple[int, ...]:
        """
        How many values each entry takes: the shape of the grid, the last entry fastest.
        """
    @property
    def table(self, /) -> Table:
        """
        A row for each combination: row, the value of each entry as text (named by its path), then numbers whose name ends in
        their unit (NaN where not known), and error: why the combination cannot be, empty where it can.
        """
    def to_dict(self, /) -> dict[str, Any]:
        """
        The table's rows as plain values; None for what is not known.
        """

@final
class Task:
    """
    One task of a schedule. Cannot be changed.

    Args:
        name: What is done, such as ``"rivet L-A1"``; other tasks name it in their `after`.
        kind: ``"strip"``, ``"cut"``, ``"lift"``, ``"lengthen"``, ``"scrape"``, ``"straighten"``, ``"prime"``, ``"clamp"``, ``"hang"``,
            ``"drill"``, ``"deburr"``, ``"plug"``, ``"rivet"``, ``"seal"``, ``"paint"`` or ``"cure"``.
        work: Hours of one person, shared out among the people on it, such as ``"3 h"`` or ``"25 min"``.
        lasts: Hours from start to end however many are on it, in place of `work`.
        people: People on it all the time; where left out, by common practice (no source) three hang, two rivet, nobody cures
            and one does anything else. What nobody is on goes on at night too.
        tools: Rivet tools it needs; where left out, one to rivet and none else.
        after: Names of the tasks that end before it.
        on: The sheet, stretch or panel it is done on.
        starts_within: Two times of day between which it may start, such as ``("10:00", "16:00")`` for skins hung warm.
        whole: It must end on the day on which it starts.

    Raises:
        InputError: An unknown kind; both `work` and `lasts`, or neither; times of day that are none.
        QuantityError: A quantity without a unit, or with one of another kind.

    Example:
        >>> import raisedbody as rb
        >>> task = rb.Task("rivet L-A1", "rivet", work="3 h", after=["hang L-A1"])
        >>> task.people, task.elapsed_h
        (2, 1.5)
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(cls, /, name: str, kind: str, *, work: str | Quantity | None = None, lasts: str | Quantity | None = None, people: SupportsIndex | None = None, tools: SupportsIndex | None = None, after: Iterable[str] | None = None, on: str = ..., starts_within: tuple[str, str] | None = None, whole: bool = False) -> Task: ...
    def __reduce__(self, /) -> tuple[Any, ...]: ...
    def __repr__(self, /) -> str: ...
    @property
    def after(self, /) -> tuple[str, ...]:
        """
        Names of the tasks that end before it.
        """
    @property
    def elapsed_h(self, /) -> float:
        """
        Hours from start to end, nights not counted.
        """
    @property
    def kind(self, /) -> str:
        """
        The kind of work.
        """
    @property
    def labour_h(self, /) -> float:
        """
        Hours of one person; nought where nobody is on it.
        """
    @property
    def name(self, /) -> str:
        """
        What is done.
        """
    @property
    def on(self, /) -> str:
        """
        The sheet, stretch or panel it is done on; empty for the whole body.
        """
    @property
    def people(self, /) -> int:
        """
        People on it; nought where it goes on by itself, at night too.
        """
    @property
    def starts_within(self, /) -> tuple[str, str] | None:
        """
        Times of day between which it may start; None where any is good.
        """
    def to_dict(self, /) -> dict[str, Any]:
        """
        The values by name.
        """
    @property
    def tools(self, /) -> int:
        """
        Rivet tools it needs.
        """
    @property
    def whole(self, /) -> bool:
        """
        It must end on the day on which it starts.
        """

@final
class TestResult:
    """
    A resistance from tests; `Coupons` makes it. Cannot be changed.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, ...]: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    def design(self, /, eta_d: "SupportsFloat | SupportsIndex" = 1.0, gamma_m: "SupportsFloat | SupportsIndex" = 1.25) -> TestResult:
        """
        From characteristic to design, EN 1990:2002 D7.2: eta_d times the value over gamma_m.

        Args:
            eta_d: Conversion from the test to the structure; 1 where the coupon is the joint.
            gamma_m: Partial factor; 1.25 for joints by EN 1993-1-3.

        Raises:
            InputError: A value that is not characteristic; a factor out of range.
        """
    def explain(self, /, form: str = "text") -> str:
        """
        The result as a hand calculation.

        Args:
            form: ``"text"``, ``"html"`` or ``"latex"``.

        Raises:
            InputError: Another form.
        """
    @property
    def level(self, /) -> str:
        """
        ``"characteristic"``, ``"design"`` or ``"nominal"``.
        """
    @property
    def mean_n(self, /) -> float:
        """
        Mean of the loads, brought back to the ordered sheet where it was measured, N.
        """
    @property
    def method(self, /) -> str:
        """
        Rule set and clause.
        """
    @property
    def n(self, /) -> int:
        """
        Number of coupons.
        """
    @property
    def notes(self, /) -> tuple[str, ...]:
        """
        What a reviewer should know besides.
        """
    @property
    def omega(self, /) -> float | None:
        """
        Safety factor of a nominal value; None for another.
        """
    @property
    def phi(self, /) -> float | None:
        """
        Resistance factor of a nominal value; None for another.
        """
    @property
    def standing(self, /) -> str:
        """
        How its numbers are known, at the weakest.
        """
    def to_dict(self, /) -> dict[str, Any]:
        """
        The values by name.
        """
    @property
    def value_n(self, /) -> float:
        """
        The resistance, N, at `level`.
        """
    @property
    def variation(self, /) -> float | None:
        """
        Coefficient of variation put into the formula, a ratio; None where the rule uses none.
        """

@final
class Tested:
    """
    A tested resistance of one rivet and the lap that it was tested on, for `Lap.check_by_test`. Cannot be changed.

    Args:
        coupon: The lap as ordered for the coupons; its pitch is the coupon's width for each rivet.
        result: A design value (EN 1990, EN 1993-1-3 over its partial factor) or a nominal one (AISI S100).
        format: For a nominal value ``"allowable"`` (over omega, against service loads) or ``"factored"`` (times phi).

    Raises:
        InputError: A characteristic value, which takes its partial factor first; a format for a value that has none.

    Example:
        >>> import raisedbody as rb
        >>> sheet = rb.Sheet(thickness="1.2 mm", fy="250 MPa", fu="360 MPa")
        >>> rivet = rb.BlindRivet("1/4 in", shear="6 kN", tension="5 kN", head="1/2 in", hole="17/64 in")
        >>> lap = rb.Lap(outer=sheet, inner=sheet, rivet=rivet, pitch="50 mm", edge="13 mm")
        >>> lap.check(shear="900 N").verdict
        "outside the rule's range"
        >>> coupons = rb.Coupons(["3620 N", "3780 N", "3550 N", "3910 N", "3690 N"])  # invented loads
        >>> tested = rb.Tested(lap, coupons.characteristic().design())
        >>> report = lap.check_by_test(tested, shear="900 N")
        >>> report.verdict, round(report.utilisation, 3)
        ('passes', 0.383)
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(cls, /, coupon: Lap, result: TestResult, format: str = "allowable") -> Tested: ...
    def __reduce__(self, /) -> tuple[Any, ...]: ...
    def __repr__(self, /) -> str: ...
    @property
    def coupon(self, /) -> Lap:
        """
        The lap that was tested.
        """
    @property
    def level(self, /) -> str:
        """
        ``"design"``, ``"allowable"`` or ``"factored"``.
        """
    @property
    def resistance_n(self, /) -> float:
        """
        What one rivet carries, N, at `level`.
        """
    @property
    def result(self, /) -> TestResult:
        """
        The tests behind it.
        """

@final
class ThreeRoll:
    """
    A three-roll bender of the pyramid kind. Cannot be changed.

    Geometry of a circle on two rolls: the top roll travels U = S - √(S² - (a/2)²) after it touches the flat sheet, S = R_o + r_L.
    Its own size does not enter, but a bend under load is never sharper than it.

    Args:
        lower_radius: Radius of the lower rolls.
        spacing: Middle of one lower roll to the middle of the other.
        top_radius: Radius of the top roll.

    Raises:
        InputError: Rolls that no bender has; lower rolls that touch.
        QuantityError: A quantity without a unit, or with one of another kind.

    Example:
        >>> import raisedbody as rb
        >>> rolls = rb.ThreeRoll(lower_radius="25 mm", spacing="70 mm", top_radius="30 mm")
        >>> round(rolls.travel_mm("150 mm", "0.9 mm"), 3)
        3.517
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(cls, /, *, lower_radius: str | Quantity, spacing: str | Quantity, top_radius: str | Quantity) -> ThreeRoll: ...
    def __reduce__(self, /) -> tuple[Any, ...]: ...
    def __repr__(self, /) -> str: ...
    @property
    def flat_mm(self, /) -> float:
        """
        Sheet that stays flat at each end, mm: about half the spacing.
        """
    @property
    def flats_advice(self, /) -> str:
        """
        What to do about the flats.
        """
    @property
    def lower_radius_mm(self, /) -> float:
        """
        Radius of the lower rolls, mm.
        """
    def radius_mm(self, /, travel: str | Quantity, thickness: str | Quantity) -> float:
        """
        Inside radius under load for a travel of the top roll after touching, mm: R_o + r_L = (U² + (a/2)²) / (2 U).

        Args:
            travel: How far the top roll is pressed down after it touches the flat sheet.
            thickness: The sheet.

        Raises:
            InputError: A travel that no bend of this bender has; sizes that no sheet has.
            QuantityError: A quantity without a unit, or with one of another kind.
        """
    def setting(self, /, radius: str | Quantity, *, thickness: str | Quantity, springback: Springback) -> RollSetting:
        """
        How to set the rolls for the radius that is to be left.

        Args:
            radius: Inside radius that is wanted.
            thickness: The whole sheet, coating included.
            springback: How the sheet springs back.

        Returns:
            Radius under load, travel, and how they move with each other.

        Raises:
            InputError: A radius that this bender does not reach in this sheet.
            QuantityError: A quantity without a unit, or with one of another kind.

        Example:
            >>> import raisedbody as rb
            >>> rolls = rb.ThreeRoll(lower_radius="25 mm", spacing="70 mm", top_radius="30 mm")
            >>> sheet = rb.Springback(thickness="0.9 mm", fy="230 MPa", modulus="205 GPa", poisson=None)
            >>> setting = rolls.setting("150 mm", thickness="0.9 mm", springback=sheet)
            >>> round(setting.loaded_mm, 2), round(setting.travel_mm, 2), round(setting.radius_per_tenth_mm, 1)
            (96.77, 5.1, 5.5)
        """
    @property
    def spacing_mm(self, /) -> float:
        """
        Middle of one lower roll to the middle of the other, mm.
        """
    def to_dict(self, /) -> dict[str, Any]:
        """
        The values by name, each ending in its unit.
        """
    @property
    def top_radius_mm(self, /) -> float:
        """
        Radius of the top roll, mm.
        """
    def travel_mm(self, /, radius: str | Quantity, thickness: str | Quantity) -> float:
        """
        Travel of the top roll after it touches the flat sheet, mm.

        Args:
            radius: Inside radius under load.
            thickness: The sheet.

        Raises:
            InputError: A radius that this bender does not reach; sizes that no sheet has.
            QuantityError: A quantity without a unit, or with one of another kind.
        """

@final
class Turned:
    """
    How far a lap can go and still pass: `Lap.largest_pitch`, `Lap.smallest_edge`, `Lap.thinnest_sheet` and
    `Lap.fewest_rows` make it. Cannot be changed.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, ...]: ...
    def __repr__(self, /) -> str: ...
    @property
    def exact(self, /) -> bool:
        """
        Worked out by inverting the rule, or counted; else bracketed to the last digits of a number.
        """
    def explain(self, /, form: str = "text") -> str:
        """
        The checks at the value as hand calculations.

        Args:
            form: ``"text"``, ``"html"`` or ``"latex"``.

        Raises:
            InputError: Another form.
        """
    @property
    def lap(self, /) -> Lap:
        """
        The lap that was asked about.
        """
    @property
    def method(self, /) -> str:
        """
        The rule set.
        """
    @property
    def stopped_by(self, /) -> str | None:
        """
        The check that the next value does not pass or, where no value passes, that stops even the most favourable; None
        where only the range of the search ends it.
        """
    @property
    def table(self, /) -> Table:
        """
        All checks at the value; where there is none, at the value most in the lap's favour.
        """
    def to_dict(self, /) -> dict[str, Any]:
        """
        The values by name.
        """
    @property
    def unit(self, /) -> str:
        """
        ``"mm"``, or empty for a number of lines.
        """
    @property
    def value(self, /) -> float | None:
        """
        The last value that passes, in `unit`; None where no value does.
        """

@final
class Wander:
    """
    What a measured line of holes leaves to a straight edge beside it; `wander` makes it. Cannot be changed.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, ...]: ...
    def __repr__(self, /) -> str: ...
    @property
    def along_mm(self, /) -> float:
        """
        Where that hole is along the line, mm.
        """
    @property
    def certain_mm(self, /) -> float:
        """
        The least edge distance that is certain, mm: as measured less the measuring error.
        """
    def check(self, /, spacing: Spacing) -> Table:
        """
        Checks the hole nearest the edge by every rule on the least edge distance.

        Passes where even the worst measuring error leaves enough, fails where even the best does not; between the two the
        measurement cannot say. ``hole 1`` in the table is the first of the list.

        Args:
            spacing: The rules.

        Returns:
            The checks, with the columns of `Report.table`.
        """
    @property
    def error_mm(self, /) -> float:
        """
        How wrong a measured distance can be, mm.
        """
    @property
    def hole(self, /) -> int:
        """
        Index of the hole nearest the edge, from 0 in the order given.
        """
    @property
    def least_mm(self, /) -> float:
        """
        Its distance to the edge as measured, mm.
        """
    @property
    def most_mm(self, /) -> float:
        """
        The distance of the hole farthest from the edge, mm.
        """
    def shift_mm(self, /, edge: str | Quantity) -> float:
        """
        How much farther out the edge must run for every hole to have this edge distance for certain.

        Args:
            edge: The edge distance, such as ``"12.8 mm"``.

        Returns:
            The shift, mm; nought where every hole has it.

        Raises:
            InputError: A distance that no sheet's edge has.
            QuantityError: A quantity without a unit, or with one of another kind.
        """
    def to_dict(self, /) -> dict[str, Any]:
        """
        The values by name, each ending in its unit.
        """

def _panic(said: str, /, *, in_worker: bool = False) -> None:
    """
    Gives up as the core does by a fault of its own, so that what a user then sees can be tried.

    Args:
        said: The words that it gives up with.
        in_worker: Whether in a thread of the pool, instead of the caller's.

    Raises:
        InternalError: Always.
    """

def _panic_place(said: str, /) -> str | None:
    """
    Where the core gave up with these words, the last time that it did; None where it is not known.
    """

def cartridges_count(sealant: str | Quantity, content: str | Quantity) -> int:
    """
    Whole cartridges that hold so much sealant.

    Args:
        sealant: The sealant, waste included, such as ``"2.4 L"``.
        content: Content of a cartridge: ``"310 mL"``, ``"10.1 fl oz"``.

    Returns:
        How many to buy.

    Raises:
        InputError: Sealant below nought; a content outside 10 mL to 20 L.
        QuantityError: A quantity without a unit, or with one of another kind.

    Example:
        >>> import raisedbody as rb
        >>> rb.cartridges_count("2.4 L", "310 mL")
        8
    """

def catalogue_table(name: str, /) -> Table:
    """
    A table of the catalogue that ships with this package; every row says its source and how far to trust it.

    Args:
        name: ``"gauge"``, ``"material"``, ``"grade"``, ``"coating"``, ``"rivet"``, ``"drill"``, ``"bit_life"``, ``"section"``,
            ``"limit"``, ``"corrosivity"``, ``"k_factor"``, ``"k_rule"``, ``"bend_limit"``, ``"surface"``,
            ``"galvanic_metal"``, ``"galvanic_limit"``, ``"sea_potential"``, ``"galvanic_order"``, ``"family_property"``,
            ``"coated_range"``, ``"durability"``, ``"paint_system"``, ``"paint_coat"``, ``"application_loss"``, ``"duplex_factor"`` or ``"default"``.

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

def check_laps(*, outer_mm: ArrayLike, inner_mm: ArrayLike | None = None, outer_fu_mpa: ArrayLike, inner_fu_mpa: ArrayLike | None = None, diameter_mm: ArrayLike, hole_mm: ArrayLike, head_mm: ArrayLike, rivet_shear_n: ArrayLike, rivet_tension_n: ArrayLike, pitch_mm: ArrayLike, edge_mm: ArrayLike, shear_n: ArrayLike | None = None, tension_n: ArrayLike | None = None, panel_edge: bool = False, steady_tension: bool = False, lower_anchor: str = "equal parts", holes_may_stretch: bool = False, handbook_bearing_mpa: tuple[SupportsFloat | SupportsIndex, SupportsFloat | SupportsIndex] | None = None, aluminium_rivets: bool = True, method: str = "EN 1993-1-3") -> LapChecks:
    """
    Checks many laps of two sheets and one line at once, on all cores; other Python threads run meanwhile.

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
        steady_tension: The load away from the sheets stays on, instead of coming and going as wind does.
        lower_anchor: Reading of AISI S100 J4.3.1: ``"equal parts"`` or ``"real parts"``.
        holes_may_stretch: Leave out AISI S100 J3.3.2, bearing with hole deformation considered.
        handbook_bearing_mpa: Bearing strengths from a handbook, MPa, at edge distances of 1.5 and of 2.0 diameters.
        aluminium_rivets: The rivets' bodies are of aluminium, or not known (EN 1999-1-4).
        method: A name as `Lap.check` takes it; the metals are taken to be such that it covers them.

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

def choose_drill(diameter: str | Quantity, *, product: str | None = None, hole_least: str | Quantity | None = None, hole_most: str | Quantity | None = None, series: Iterable[str] | None = None) -> DrillChoice:
    """
    The smallest drill that is no smaller than a rivet's smallest hole, and every rule that its hole keeps or breaks.

    Args:
        diameter: Nominal diameter of the rivet.
        product: Product standard in the catalogue, such as ``"ISO 15976"``; it states the rivet's holes.
        hole_least: The rivet's smallest hole, in place of `product`.
        hole_most: The rivet's largest hole, in place of `product`, where its maker states one.
        series: The drills at hand: ``"fraction"``, ``"number"``, ``"letter"``, ``"metric"``; all where left out.

    Returns:
        The drill.

    Raises:
        InputError: An unknown product, size or series; no drill of these series that large; both a product and a hole, or
            neither; holes that no rivet has.
        QuantityError: A quantity without a unit, or with one of another kind.

    Example:
        >>> import raisedbody as rb
        >>> choice = rb.choose_drill("1/4 in", product="IFI-114 grade 30", series=["letter", "number"])
        >>> choice.drill, round(choice.hole_mm, 3)
        ('F', 6.528)
    """

def choose_length(sheets: Iterable[str | Quantity], product: str, diameter: str | Quantity, *, coating: str | Quantity | None = None, sealant: str | Quantity | None = None) -> LengthChoice:
    """
    The shortest rivet of a product whose grip range holds a stack of sheets.

    Args:
        sheets: Thickness of each sheet, its metallic coating included, such as ``["1.2 mm", "1.5 mm"]``.
        product: Product in the catalogue's table of grips: ``"ISO 15981"`` or ``"inch blind rivet"``.
        diameter: Nominal diameter of the rivet.
        coating: Paint and primer between and on the sheets, all layers together; none where left out.
        sealant: Sealant left in the lap once it is pulled together; none where left out.

    Returns:
        The rivet, its range, and a warning where the stack is close to an end of it.

    Raises:
        InputError: A grip that no range holds (the nearest ranges are named); a product or diameter without known grips;
            a sheet or layer that no stack has.
        QuantityError: A quantity without a unit, or with one of another kind.

    Example:
        >>> import raisedbody as rb
        >>> sheets = ["1.2 mm", "1.2 mm", "1.5 mm"]
        >>> choice = rb.choose_length(sheets, "inch blind rivet", "1/4 in", coating="0.12 mm", sealant="0.3 mm")
        >>> choice.code, choice.warning
        ('84', None)
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

def duplex_life(zinc_years: tuple[SupportsFloat | SupportsIndex, SupportsFloat | SupportsIndex | None], paint_years: tuple[SupportsFloat | SupportsIndex, SupportsFloat | SupportsIndex | None], category: str) -> Table:
    """
    How long zinc and the paint on it last together, years: k times the sum of both.

    What decides for a vehicle is a judgement: k 1.5 in C5 and CX, 1.5 to 2.0 in the milder categories. The ranges that sources
    give differ and stand beside it. A layer that may be gone at once keeps nothing from the other.

    Args:
        zinc_years: Shortest and longest life of the zinc alone; None for a longest without bound.
        paint_years: The same of the paint alone.
        category: Corrosivity category, ``"C1"`` to ``"C5"`` or ``"CX"``.

    Returns:
        A row for each range of k, the one that decides first: name, decides, k_low, k_high, shortest_years, longest_years
        (NaN without bound), source, standing.

    Raises:
        InputError: An unknown category; years below nought; a longest life below the shortest.

    Example:
        >>> import raisedbody as rb
        >>> life = rb.duplex_life((40, 40), (10, 10), "C5")
        >>> float(life["shortest_years"][0]), float(life["longest_years"][0])
        (75.0, 75.0)
    """

def effective_width(width: str | Quantity, thickness: str | Quantity, stress: str | Quantity, *, psi: "SupportsFloat | SupportsIndex" = 1.0, edge: str = "internal") -> Table:
    """
    The effective width of one flat wall, by EN 1993-1-5 and by AISI S100 beside it; both from memory, both for steel.

    Args:
        width: Flat width of the wall.
        thickness: Thickness.
        stress: Greatest compression on it, at one of its edges; at most the yield strength.
        psi: The stress at the other edge over that: 1 for even compression, −1 for pure bending; −3 at least.
        edge: How it is held: ``"internal"`` along both edges, ``"outstand, tip"`` along one with the greatest compression
            at the free edge, ``"outstand, root"`` with it at the held one.

    Returns:
        A row for each method: its buckling factor ``k``, slenderness ``lambda``, the part ``rho`` that works, of the
        compressed width by EN 1993-1-5 and of the whole by AISI S100; NaN where the wall is too slender for the rule.

    Raises:
        InputError: An unknown kind of edge; sizes, a stress or a ratio that no wall has.
        QuantityError: A quantity without a unit, or with one of another kind.

    Example:
        >>> import raisedbody as rb
        >>> widths = rb.effective_width("50 mm", "0.9 mm", "230 MPa")
        >>> widths["rho"].round(4).tolist()
        [0.7985, 0.7893]
    """

def first_year_losses(*, temperature: str | Quantity, humidity: str | Quantity, so2: str | Quantity, chloride: str | Quantity) -> Table:
    """
    First year's loss of steel, zinc, copper and aluminium in the climate of a place, by ISO 9223.

    The dose-response functions of ISO 9223:2012 for an openly exposed plate; their coefficients are partly and their
    uncertainty wholly from memory. Yearly means are asked for. Aluminium pits, so that its depth says little.

    Args:
        temperature: Air, ``"10 degC"``; -17.1 to 28.7 degC.
        humidity: Relative, ``"75 %"``; 34 to 93 %.
        so2: Sulphur dioxide that settles, ``"10 mg/m2/d"``; 0.7 to 150.4.
        chloride: Chloride that settles, ``"3 mg/m2/d"``; 0.4 to 760.5.

    Returns:
        A row a metal: ``metal``, ``rate_um_a``, the parts of it by sulphur dioxide and chloride ``so2_um_a`` and
        ``chloride_um_a``, ``alternative_um_a`` by the other form in circulation (zinc's chloride term; the range spans both),
        the range ``low_um_a`` to ``high_um_a``, ``category`` of the rate (empty where it has none) and
        ``standing``.

    Raises:
        InputError: A climate outside the range that the functions were fitted over.
        QuantityError: A quantity without a unit, or with one of another kind.

    Example:
        >>> import raisedbody as rb
        >>> air = {"temperature": "10 degC", "humidity": "75 %", "so2": "10 mg/m2/d", "chloride": "3 mg/m2/d"}
        >>> losses = rb.first_year_losses(**air)
        >>> losses["metal"].tolist()[0], round(losses["rate_um_a"].tolist()[0], 2), losses["category"].tolist()[0]
        ('steel', 29.84, 'C3')
    """

def hanging_order(laps: Iterable[tuple[str, str]], *, things: Iterable[str] | None = None) -> tuple[str, ...]:
    """
    The order in which things hang: what lies beneath before what laps over it.

    Where laps leave a choice, what comes first in `things` hangs first; what only a lap names comes after those, in the order
    in which it is first named.

    Args:
        laps: Each lap as a pair of names: the one outside, then the one beneath.
        things: Names in the order that decides wherever laps do not, such as the top row from the rear on.

    Returns:
        Every name once, in the order of hanging.

    Raises:
        LapLoopError: Laps that go round in a loop; it has the shortest one.
        InputError: A name that is empty, or twice among the things.

    Example:
        >>> import raisedbody as rb
        >>> rb.hanging_order([("A2", "A1"), ("A1", "B1"), ("A2", "B2"), ("B2", "B1")], things=["A1", "A2"])
        ('B1', 'A1', 'B2', 'A2')
        >>> rb.hanging_order([("A", "B"), ("B", "C"), ("C", "A")])
        Traceback (most recent call last):
        raisedbody.exceptions.LapLoopError: laps: A laps over B, B over C, C over A: each would have to hang before...
    """

def head_clearance(head: str | Quantity, diameter: str | Quantity, *, edge: str | Quantity | None = None, inside_bend: str | Quantity | None = None, outside_bend: str | Quantity | None = None, radius: str | Quantity | None = None, thickness: str | Quantity | None = None, nose: str | Quantity | None = None) -> Table:
    """
    Checks whether a rivet's head lies flat, and whether the setting tool reaches the rivet beside a standing leg.

    One of `edge`, `inside_bend` and `outside_bend` says what the head may run into, and how far from the rivet's centre.

    Args:
        head: Head diameter.
        diameter: Nominal diameter of the rivet.
        edge: To the sheet's edge.
        inside_bend: To the near face of a leg that stands on the head's side.
        outside_bend: To the far face of a leg that goes away from the head: the outside of the bend.
        radius: Inside radius of the bend.
        thickness: Thickness of the sheet, for an outside bend.
        nose: Diameter of the tool's nose, for an inside bend.

    Returns:
        The checks, with the columns of `Report.table`.

    Raises:
        InputError: None or more than one thing to run into; a size that it needs and does not have, or has no use for;
            sizes that no rivet, bend or tool has.
        QuantityError: A quantity without a unit, or with one of another kind.

    Example:
        >>> import raisedbody as rb
        >>> rb.head_clearance("13.4 mm", "6.4 mm", inside_bend="9 mm", radius="2 mm")["verdict"].tolist()
        ['passes']
    """

def hole_checks(hole: str | Quantity, *, diameter: str | Quantity, product: str | None = None, hole_least: str | Quantity | None = None, hole_most: str | Quantity | None = None) -> Table:
    """
    Checks a hole as drilled by every rule: the product's own range, the joint rule's, and for inch rivets the hole charts.

    A hole outside the product's range fails; a hole beyond another rule is outside that rule's range.

    Args:
        hole: The hole.
        diameter: Nominal diameter of the rivet.
        product: Product standard in the catalogue, such as ``"ISO 15976"``; it states the rivet's holes.
        hole_least: The rivet's smallest hole, in place of `product`.
        hole_most: The rivet's largest hole, in place of `product`, where its maker states one.

    Returns:
        The checks, with the columns of `Report.table`.

    Raises:
        InputError: An unknown product or size; both a product and a hole range, or neither; holes that no rivet has.
        QuantityError: A quantity without a unit, or with one of another kind.

    Example:
        >>> import raisedbody as rb
        >>> checks = rb.hole_checks("17/64 in", diameter="6.4 mm", product="ISO 15976")
        >>> next(row["verdict"] for row in checks.rows() if row["name"] == "hole, most")
        'fails'
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

def jigs(gaps: Iterable[tuple[str, str | Quantity, SupportsIndex]], *, tolerance: str | Quantity) -> Jigs:
    """
    Drilling jigs for gaps that are evenly spaced: one for each set of like gaps.

    Args:
        gaps: Each gap: its name, its length from hole to hole, and into how many spaces it is divided.
        tolerance: How far a hole may be from its jig's in any gap that the jig serves.

    Returns:
        The jigs, the fewest that serve all gaps.

    Raises:
        InputError: A gap of one space, a length or a tolerance out of range.
        QuantityError: A quantity without a unit, or with one of another kind.

    Example:
        >>> import raisedbody as rb
        >>> jigs = rb.jigs([("posts 1 to 2", "28 in", 6), ("posts 2 to 3", "28 1/16 in", 6)], tolerance="1/32 in")
        >>> jigs, jigs.places["inches"][1:4].tolist()
        (<Jigs: 1 for 2 gaps>, ['4-43/64 in', '9-11/32 in', '14-1/64 in'])
    """

def layer_lives(*, thickness: str | Quantity, least: str | Quantity | None = None, category: str | None = None, rate: tuple[str | Quantity, str | Quantity] | None = None, metal: str = "zinc") -> Table:
    """
    Years until a layer of metal on one side is used up, by every reading of the standards.

    ISO 9224:2012 with its mean exponent B1 and its cautious one B2, each along the tangent beyond 20 years (its text) and by
    the power law throughout (its table); and thickness over rate, as ISO 14713-1 tabulates (from memory).

    Args:
        thickness: Of the layer as ordered, on one side: ``"19.2 um"``.
        least: The thinner side that is still permitted; as ordered where left out.
        category: Corrosivity category of ISO 9223, for its bounds.
        rate: First year's loss, least and most, instead: ``("2.1 um/a", "4.2 um/a")``.
        metal: ``"zinc"``, ``"steel"``, ``"copper"`` or ``"aluminium"``.

    Returns:
        A row a reading: ``reading``, ``shortest_years`` (least thickness at the greater rate) and ``longest_years``
        (thickness as ordered at the lesser rate; not a number where nothing bounds it).

    Raises:
        InputError: An unknown metal or category, neither or both of category and rate, a thickness or rate that none has.
        QuantityError: A quantity without a unit, or with one of another kind.

    Example:
        >>> import raisedbody as rb
        >>> lives = rb.layer_lives(thickness="19.2 um", least="13.7 um", category="C3")
        >>> lives["reading"].tolist()[0], round(lives["shortest_years"].tolist()[0], 1)
        ('thickness over first-year rate', 6.5)
    """

def least_bend_radius_mm(thickness: str | Quantity, reduction: str | Quantity) -> float:
    """
    Sharpest inside radius by the reduction of area in a tension test, mm: t (50/r - 1), not below nought (from memory).

    Args:
        thickness: The sheet.
        reduction: Reduction of area, such as ``"40 %"``.

    Returns:
        The radius, mm.

    Raises:
        InputError: A thickness that no sheet has; a reduction outside 1 to 100 %.
        QuantityError: A quantity without a unit, or with one of another kind.

    Example:
        >>> import raisedbody as rb
        >>> rb.least_bend_radius_mm("2 mm", "25 %")
        2.0
    """

def losses_over_years(years: ArrayLike, *, category: str | None = None, rate: tuple[str | Quantity, str | Quantity] | None = None, metal: str = "zinc") -> Table:
    """
    Between which losses on one side a metal may lie after some years, by all readings of ISO 9224 and thickness over rate.

    Args:
        years: Times in years.
        category: Corrosivity category of ISO 9223, for its bounds.
        rate: First year's loss, least and most, instead: ``("2.1 um/a", "4.2 um/a")``.
        metal: ``"zinc"``, ``"steel"``, ``"copper"`` or ``"aluminium"``.

    Returns:
        A row a time: ``years``, ``least_um`` and ``most_um``.

    Raises:
        InputError: An unknown metal or category, neither or both of category and rate, a negative time.
        QuantityError: A rate without a unit.

    Example:
        >>> import raisedbody as rb
        >>> rb.losses_over_years([1, 10], category="C4", metal="steel")["most_um"].tolist()
        [80.0, 800.0]
    """

def paint_durability(category: str, film: str | Quantity) -> Table:
    """
    How long a paint system on hot-dip galvanized steel lasts to its first major maintenance, by its total dry film.

    ISO 12944-5 lists films by category and class of durability (from memory). Between two films the lower class holds; a
    thinner film is "below the lowest" and a category that is not listed, C1 or CX, "not tabulated": no number is worked out.
    The same word has stood for different years in the editions of ISO 12944-1; the first row is that of 2018, which is used.
    None is a guarantee time.

    Args:
        category: Corrosivity category, ``"C1"`` to ``"C5"`` or ``"CX"``.
        film: Dry film of all coats together, such as ``"120 um"``.

    Returns:
        A row for each edition: edition, durability, from_years, to_years (NaN where open), source, standing.

    Raises:
        InputError: An unknown category; a film that no system has.
        QuantityError: A quantity without a unit, or with one of another kind.

    Example:
        >>> import raisedbody as rb
        >>> table = rb.paint_durability("C4", "130 um")
        >>> [(str(band), float(to)) for band, to in zip(table["durability"], table["to_years"])]
        [('medium', 15.0), ('medium', 15.0)]
    """

def parse(text: str | Quantity, kind: str, /) -> float:
    """
    Reads a quantity.

    Args:
        text: The quantity with its unit, such as ``"4 1/4 in"``, ``"6 ft 3 1/2 in"``, ``"1.9 N/mm"``.
        kind: What it measures: ``"length"``, ``"area"``, ``"volume"``, ``"mass"``, ``"linear mass"``,
            ``"areal mass"``, ``"density"``, ``"force"``, ``"line load"``, ``"pressure"``, ``"speed"``,
            ``"temperature"``, ``"temperature difference"``, ``"irradiance"``, ``"film coefficient"``,
            ``"duration"``, ``"loss rate"``, ``"angle"``, ``"roll stiffness"``, ``"fuel use"``,
            ``"spreading rate"`` or ``"ratio"``.

    Returns:
        The number in mm, m2, L, kg, kg/m, kg/m2, kg/m3, N, N/mm, MPa, m/s, degC, h, um/a, deg, Nm/rad, g/kWh,
        m2/L or as a plain ratio.

    Raises:
        QuantityError: The text is no such quantity; the message shows the place and a correct example.
        InputError: There is no such kind.

    Example:
        >>> from raisedbody import parse
        >>> parse("4 1/4 in", "length")
        107.95
    """

def prying_ratio(to_web: str | Quantity, to_edge: str | Quantity) -> float:
    """
    Prying force over applied tension at a flange, as a rigid bound (from memory): b' / a', a' at most 1.25 b'.

    The rivet's tension is 1 + this ratio times the applied one. It holds for a flange no thinner than the sheet on it;
    under a thinner sheet the prying moves into the sheet and the pull-over is eccentric instead.

    Args:
        to_web: b', the rivet to the face of the web or bend, such as ``"12 mm"``.
        to_edge: a', the rivet to the free edge; no more than 1.25 b' of it counts.

    Returns:
        The ratio, never below 0.8.

    Raises:
        InputError: A distance outside 0.5 to 500 mm.
        QuantityError: A quantity without a unit, or with one of another kind.

    Example:
        >>> import raisedbody as rb
        >>> rb.prying_ratio("12 mm", "12 mm"), rb.prying_ratio("12 mm", "40 mm")
        (1.0, 0.8)
    """

def rivet_diameter_checks(sheets: Iterable[str | Quantity], diameter: str | Quantity) -> Table:
    """
    Checks whether a rivet suits its sheets by aircraft practice: not thinner than the thickest, not over three times it.

    A habit of riveters, so that a breach is not failed but pointed out.

    Args:
        sheets: Thickness of each sheet.
        diameter: Nominal diameter of the rivet.

    Returns:
        The checks, with the columns of `Report.table`.

    Raises:
        InputError: No sheet; a sheet or diameter that no riveted lap has.
        QuantityError: A quantity without a unit, or with one of another kind.

    Example:
        >>> import raisedbody as rb
        >>> rb.rivet_diameter_checks(["1.2 mm", "2.4 mm"], "6.4 mm")["verdict"].tolist()
        ['passes', 'passes']
    """

def sealant_volume_l(length: str | Quantity, *, width: str | Quantity | None = None, depth: str | Quantity | None = None, leg: str | Quantity | None = None, diameter: str | Quantity | None = None, waste: str | Quantity | None = None, hand: str | None = None) -> float:
    """
    Sealant for a bead, litres: its cross-section times its length, and what is wasted.

    The bead is a rectangle (`width` and `depth`: w d), a fillet (`leg`: a²/2) or round (`diameter`: π d²/4). Waste is given
    itself, or by the hand that lays it, whose greatest waste in the catalogue is taken.

    Args:
        length: How long the bead is.
        width: Width of a rectangle.
        depth: Its depth; in a lap the thickness of what is left there.
        leg: Each leg of a fillet.
        diameter: Of a round bead.
        waste: Sealant bought beyond the bead, such as ``"12 %"``.
        hand: ``"expert"``, ``"average"`` or ``"new"``.

    Returns:
        The sealant, litres.

    Raises:
        InputError: Not one whole bead; sizes that no bead has; a waste told in two ways; an unknown hand.
        QuantityError: A quantity without a unit, or with one of another kind.

    Example:
        >>> import raisedbody as rb
        >>> rb.sealant_volume_l("1 m", width="25 mm", depth="0.5 mm")  # 12.5 mL
        0.0125
    """

def skin_strips(thickness: str | Quantity, spacing: str | Quantity, stress: str | Quantity, *, modulus: str | Quantity | None = None) -> Table:
    """
    How much skin works with a rib between two like it, by both rules; both from memory.

    Args:
        thickness: Thickness of the skin.
        spacing: From one line of rivets to the next rib's.
        stress: Compressive stress in the skin at the rib.
        modulus: Modulus of elasticity, such as ``"205 GPa"``; that of carbon steel where left out. EN 1993-1-5 has its own.

    Returns:
        A row for each rule: the width of the strip, both sides of the rib together, at most the spacing. EN 1993-1-5 has
        none where the spacing is more than 500 thicknesses.

    Raises:
        InputError: A thickness, spacing, stress or modulus that no skin has.
        QuantityError: A quantity without a unit, or with one of another kind.

    Example:
        >>> import raisedbody as rb
        >>> rb.skin_strips("0.9 mm", "300 mm", "100 MPa", modulus="205 GPa")["width_mm"].round(1).tolist()
        [73.9, 77.4]
    """

def sol_air(*, air: str | Quantity, irradiance: str | Quantity, surface: str | None = None, absorptance: SupportsFloat | SupportsIndex | None = None, attitude: str = "horizontal", film: str | Quantity | None = None) -> SolAir:
    """
    How hot a sheet in the sun gets: T_s = T_o + α_s I/h_o - ε ΔR/h_o.

    The loss to the sky beyond the film, ε ΔR/h_o, is 3.9 K of a horizontal sheet and none of an upright one (ASHRAE, from
    memory).

    Args:
        air: Temperature of the air.
        irradiance: Sun on the surface: about 1000 W/m2 on a roof in summer.
        surface: A name of the catalogue's surface table; white ranges from 0.19 to 0.66 between sources.
        absorptance: Your own share of the sun that is taken up, in place of the surface.
        attitude: ``"horizontal"`` or ``"vertical"``.
        film: Outside film coefficient; 17 W/m2/K (ASHRAE, from memory) where left out.

    Returns:
        The temperature and where it is from.

    Raises:
        InputError: An unknown surface; a surface and an absorptance together, or neither; weather that no bus meets.
        QuantityError: A quantity without a unit, or with one of another kind.

    Example:
        >>> import raisedbody as rb
        >>> roof = rb.sol_air(air="35 degC", irradiance="1000 W/m2", absorptance=0.95)
        >>> round(roof.temperature_deg_c, 1)
        87.0
    """

def spreading_rate_ft2_gal(film: str | Quantity, solids: str | Quantity, *, loss: str | Quantity | None = None, transfer_efficiency: str | Quantity | None = None, method: str | None = None) -> float:
    """
    Area that a US gallon of paint covers, ft2: 1604 · solids / film\\[mil\\] · (1 - loss).

    Args:
        film: Dry film, such as ``"1.6 mil"``.
        solids: Solids by volume, such as ``"42 %"``.
        loss: Paint that does not stay on the sheet, such as ``"30 %"``.
        transfer_efficiency: Paint that stays on it.
        method: ``"conventional spray"``, ``"airless spray"``, ``"brush"`` or ``"roller"``.

    Returns:
        The rate, ft2/gal.

    Raises:
        InputError: A film, solids or loss that no coat has; an unknown method; a loss told in two ways.
        QuantityError: A quantity without a unit, or with one of another kind.

    Example:
        >>> import raisedbody as rb
        >>> round(rb.spreading_rate_ft2_gal("1.6 mil", "42 %"))
        421
    """

def spreading_rate_m2_l(film: str | Quantity, solids: str | Quantity, *, loss: str | Quantity | None = None, transfer_efficiency: str | Quantity | None = None, method: str | None = None) -> float:
    """
    Area that a litre of paint covers, m2: 1000 · solids / film\\[µm\\] · (1 - loss).

    Without a loss it is the theoretical rate of data sheets. The loss may be given itself, as the share that stays on the
    sheet (transfer efficiency), or as the way of applying it, whose greatest loss in the catalogue is taken.

    Args:
        film: Dry film, such as ``"60 um"`` or ``"2 mil"``.
        solids: Solids by volume, such as ``"45 %"``.
        loss: Paint that does not stay on the sheet, such as ``"30 %"``.
        transfer_efficiency: Paint that stays on it.
        method: ``"conventional spray"``, ``"airless spray"``, ``"brush"`` or ``"roller"``.

    Returns:
        The rate, m2/L.

    Raises:
        InputError: A film, solids or loss that no coat has; an unknown method; a loss told in two ways.
        QuantityError: A quantity without a unit, or with one of another kind.

    Example:
        >>> import raisedbody as rb
        >>> rb.spreading_rate_m2_l("60 um", "45 %")
        7.5
    """

def suction_per_rivet_n(suction: str | Quantity, rib_spacing: str | Quantity, pitch: str | Quantity, spans: SupportsIndex | None = None) -> float:
    """
    Suction on one rivet of a line that holds a sheet over equally spaced ribs, N.

    Statics of continuous beams on rigid ribs: at the sheet's end half a rib spacing pulls on the line, at the first inner
    line a whole one times 1.25 over two spans, 1.10 over three, 8/7 over four and more.

    Args:
        suction: Net pressure outward, wind and inside pressure together, such as ``"0.8 kPa"``; factored or not as the
            level of the check asks.
        rib_spacing: From rib to rib, such as ``"700 mm"``.
        pitch: From rivet to rivet along the line.
        spans: For the first inner line, the spans that the sheet runs over; the line at the sheet's end where left out.

    Returns:
        The tension in one rivet, N, prying not included.

    Raises:
        InputError: A suction outside 0 to 0.1 MPa; a spacing or pitch outside 1 to 5000 mm; fewer than two spans.
        QuantityError: A quantity without a unit, or with one of another kind.

    Example:
        >>> import raisedbody as rb
        >>> round(rb.suction_per_rivet_n("0.8 kPa", "700 mm", "100 mm", spans=2), 6)
        70.0
    """

def unpainted_allowed(family: str, /) -> bool:
    """
    Whether a family of skin may stay without paint outdoors.

    Args:
        family: A row of the table ``"family_property"``: ``"bare steel"``, ``"zinc"``, ``"electrolytic zinc"``, ``"zinc-iron"``,
            ``"aluminium-zinc"``, ``"aluminium"`` (aluminized), ``"stainless steel"`` or ``"aluminium sheet"``.

    Raises:
        InputError: There is no such family.

    Example:
        >>> from raisedbody import unpainted_allowed
        >>> unpainted_allowed("zinc-iron")
        False
    """

def wander(holes: Iterable[tuple[str | Quantity, str | Quantity]], *, edge: str | Quantity, error: str | Quantity) -> Wander:
    """
    The least edge distance over a line of holes that wander off it, as closely as they were measured.

    Args:
        holes: Each hole as a pair: along the line from its start, and off the line, above nought towards the edge.
        edge: How far beside the straight line the sheet's edge runs.
        error: The greatest error of a measured distance, both of the hole and of the edge.

    Returns:
        The hole nearest the edge and what it leaves.

    Raises:
        InputError: No hole; a place, an edge or an error that no riveted line has.
        QuantityError: A quantity without a unit, or with one of another kind.

    Example:
        >>> import raisedbody as rb
        >>> holes = [("0 mm", "0.2 mm"), ("100 mm", "1.5 mm"), ("200 mm", "-0.4 mm")]
        >>> line = rb.wander(holes, edge="13 mm", error="0.5 mm")
        >>> line.hole, line.least_mm, line.certain_mm
        (1, 11.5, 11.0)
    """

def wet_film_um(film: str | Quantity, solids: str | Quantity) -> float:
    """
    How thick a coat is put on, µm: dry film over solids.

    Args:
        film: Dry film, such as ``"60 um"``.
        solids: Solids by volume, such as ``"45 %"``.

    Returns:
        The wet film, µm.

    Raises:
        InputError: A film or solids that no coat has.
        QuantityError: A quantity without a unit, or with one of another kind.

    Example:
        >>> import raisedbody as rb
        >>> rb.wet_film_um("60 um", "50 %")
        120.0
    """

def yearly_cost(*, first: str, renewal: str | None = None, life_years: SupportsFloat | SupportsIndex | None = None, horizon_years: SupportsFloat | SupportsIndex, discount: str | Quantity | None = None) -> Table:
    """
    The equivalent annual cost of putting something on now and renewing it each time its life ends.

    Present worth of all spending, spread evenly by the capital recovery factor (A/P of engineering economics). What is left of
    the last life at the end of the horizon is worth nothing here.

    Args:
        first: Paid at the start: ``"4200 USD"``.
        renewal: Paid each time that a life ends, in today's money; as at the start where left out.
        life_years: Life, years; None for one that outlasts the horizon.
        horizon_years: Years that it is kept.
        discount: Interest a year: ``"4 %"``; none where left out.

    Returns:
        One row: ``per_year`` in the currency of ``first``, ``currency``, ``renewals_count``.

    Raises:
        InputError: A price that cannot be read or is not a whole sum, two currencies, a life or horizon that is not above 0.

    Example:
        >>> import raisedbody as rb
        >>> cost = rb.yearly_cost(first="1000 USD", horizon_years=10, discount="8 %")
        >>> round(cost["per_year"].tolist()[0], 2)
        149.03
    """
