"""Many laps at once: the same answers as one by one, whatever the arrays look like."""

import numpy as np
import pytest

import raisedbody as rb

ONE = {
    "outer_mm": 1.2,
    "outer_fu_mpa": 360,
    "diameter_mm": 6.4,
    "hole_mm": 6.5,
    "head_mm": 13.4,
    "rivet_shear_n": 6000,
    "rivet_tension_n": 5000,
    "pitch_mm": 50,
    "edge_mm": 9.6,
    "shear_n": 900,
    "tension_n": 150,
}


def test_one_cell_is_one_lap(lap: rb.Lap) -> None:
    cell = rb.check_laps(**ONE)
    report = lap.check(shear="900 N", tension="150 N")
    assert cell.shape == ()
    assert float(cell.utilisation) == report.utilisation
    assert str(cell.verdict) == report.verdict
    assert str(cell.governing) == report.governing.name


def test_arrays_of_every_kind_broadcast() -> None:
    thickness = np.array([[1], [2]])  # integers
    pitch = [20, 30.5, 60]  # a list
    grid = rb.check_laps(**{**ONE, "outer_mm": thickness, "pitch_mm": pitch})
    assert grid.shape == (2, 3)
    for i, t in enumerate((1, 2)):
        for j, p in enumerate(pitch):
            cell = rb.check_laps(**{**ONE, "outer_mm": t, "pitch_mm": p})
            assert grid.utilisation[i, j] == cell.utilisation
            assert grid.verdict[i, j] == str(cell.verdict)
    backwards = rb.check_laps(**{**ONE, "pitch_mm": np.array(pitch)[::-1]})  # a slice with a negative step
    assert backwards.utilisation.tolist() == grid.utilisation[0, ::-1].tolist() or backwards.shape == (3,)
    strided = rb.check_laps(**{**ONE, "pitch_mm": np.arange(20.0, 40.0)[::5]})
    assert strided.utilisation.tolist() == rb.check_laps(**{**ONE, "pitch_mm": [20, 25, 30, 35]}).utilisation.tolist()
    assert rb.check_laps(**{**ONE, "pitch_mm": []}).shape == (0,)
    with pytest.raises(rb.InputError, match="broadcast"):
        rb.check_laps(**{**ONE, "pitch_mm": [1, 2], "edge_mm": [1, 2, 3]})
    with pytest.raises(rb.InputError, match="method"):
        rb.check_laps(**ONE, method="by guess")


def test_bad_cells_get_a_verdict_and_no_number() -> None:
    bad = [np.nan, np.inf, -np.inf, -1.0, 0.0, 1e308]
    for name in ("outer_mm", "outer_fu_mpa", "diameter_mm", "hole_mm", "pitch_mm", "edge_mm", "rivet_shear_n"):
        cells = rb.check_laps(**{**ONE, name: bad})
        assert not cells.passes.any(), name
        assert np.isnan(cells.utilisation).all(), name
        assert set(cells.verdict.tolist()) <= {"not assessed", "outside the rule's range"}


def test_repr_counts_verdicts() -> None:
    cells = rb.check_laps(**{**ONE, "hole_mm": [6.5, 6.75]})
    assert repr(cells) == "<LapChecks (2,) by EN 1993-1-3: 1 passes, 1 outside the rule's range>"
