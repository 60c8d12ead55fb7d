"""Build planner for raised bus bodies: a measured bus and a few choices in; a checked, priced, orderable plan out.

Lengths, forces and other quantities go in as text with a unit (``"4 1/4 in"``, ``"900 N"``), or as objects with
``to(unit)`` and ``magnitude``, and come out as floats whose name ends in the unit (``pitch_mm``, ``shear_n``).

A planning aid, not a certification: structural work on a passenger vehicle is for a licensed engineer and the local
authority to accept.
"""

from raisedbody import exceptions
from raisedbody._core import (
    BlindRivet,
    Check,
    Comparison,
    Evaluation,
    Lap,
    Mass,
    Plan,
    Report,
    Sheet,
    __version__,
    catalogue_table,
    check_laps,
    compare,
    inches,
    parse,
)
from raisedbody.exceptions import InputError, PlanFileError, PlanSyntaxError, QuantityError, RaisedbodyError
from raisedbody.laps import LapChecks
from raisedbody.table import Table

__all__ = [
    "BlindRivet",
    "Check",
    "Comparison",
    "Evaluation",
    "InputError",
    "Lap",
    "LapChecks",
    "Mass",
    "Plan",
    "PlanFileError",
    "PlanSyntaxError",
    "QuantityError",
    "RaisedbodyError",
    "Report",
    "Sheet",
    "Table",
    "__version__",
    "catalogue_table",
    "check_laps",
    "compare",
    "exceptions",
    "inches",
    "parse",
]
