"""The outcome of many laps checked at once."""

from __future__ import annotations

TYPE_CHECKING = False  # `typing` and NumPy would take most of the time that importing this package takes
if TYPE_CHECKING:
    from collections.abc import Sequence
    from typing import Any

    from numpy import float64, str_, uint8
    from numpy.typing import NDArray

__all__ = ["LapChecks"]


class LapChecks:
    """Utilisation, governing check and verdict of many laps; `check_laps` makes it.

    Attributes:
        method: The rule set.
        utilisation: Highest demand over capacity among the strengths; NaN outside the rule's range or where a value is
            missing.
        governing_code: Index into `check_names` of the check that decides.
        verdict_code: Index into `verdicts`.
        check_names: Names of the checks; the last, ``"input"``, stands for sizes or loads that no lap has.
        verdicts: ``"passes"``, ``"not assessed"``, ``"outside the rule's range"``, ``"fails"``.
    """

    def __init__(
        self,
        method: str,
        utilisation: NDArray[float64],
        governing_code: NDArray[uint8],
        verdict_code: NDArray[uint8],
        check_names: Sequence[str],
        verdicts: Sequence[str],
    ) -> None:
        """Keep the arrays."""
        self.method = method
        self.utilisation = utilisation
        self.governing_code = governing_code
        self.verdict_code = verdict_code
        self.check_names = tuple(check_names)
        self.verdicts = tuple(verdicts)

    @property
    def shape(self) -> tuple[int, ...]:
        """The shape that the arguments broadcast to."""
        return self.utilisation.shape

    @property
    def verdict(self) -> NDArray[str_]:
        """The verdict of every cell in words."""
        return self._words(self.verdicts, self.verdict_code)

    @property
    def governing(self) -> NDArray[str_]:
        """The name of the check that decides each cell."""
        return self._words(self.check_names, self.governing_code)

    @property
    def passes(self) -> NDArray[Any]:
        """True where a cell passes; nothing else counts as passing."""
        passing: NDArray[Any] = self.verdict_code == self.verdicts.index("passes")
        return passing

    @staticmethod
    def _words(words: tuple[str, ...], codes: NDArray[uint8]) -> NDArray[str_]:
        import numpy as np

        chosen: NDArray[str_] = np.asarray(words)[codes]
        return chosen

    def __repr__(self) -> str:
        """The shape and how many cells have each verdict."""
        counts = (int((self.verdict_code == code).sum()) for code in range(len(self.verdicts)))
        parts = ", ".join(f"{n} {words}" for n, words in zip(counts, self.verdicts, strict=True) if n)
        return f"<LapChecks {self.shape} by {self.method}: {parts or 'empty'}>"
