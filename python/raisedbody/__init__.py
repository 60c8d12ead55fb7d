"""Build planner for raised bus bodies: a measured bus and a few choices in; a checked, priced, orderable plan out.

Lengths, forces and other quantities go in as text with a unit (``"4 1/4 in"``, ``"900 N"``) and come out as floats
whose name ends in the unit (``pitch_mm``, ``shear_n``).
"""

from raisedbody import exceptions
from raisedbody._core import __version__

__all__ = ["__version__", "exceptions"]
