"""The ledger, the exits and the gate as a planner meets them."""

import pandas as pd
import pytest

import raisedbody as rb

QUESTIONS = ("insurer", "title", "ratings", "engineer", "supports", "fire", "battery", "lead", "weather")


@pytest.fixture
def plan() -> rb.Plan:
    return rb.Plan.read("examples/mobile_library.toml")


def test_a_ledger_line_for_each_thing(plan: rb.Plan) -> None:
    ledger = pd.DataFrame(plan.evaluate().ledger).set_index("name")
    assert list(ledger.columns) == ["kind", "relation", "action", "lengthen_mm", "note"]
    wires = ledger.loc["marker lamp wires, rear left post"]
    assert (wires.relation, wires.action, wires.lengthen_mm) == ("crosses the cut", "lengthen", 340.0)
    assert set(ledger.action) <= {"lengthen", "relocate", "keep", "close"}
    higher = plan.replace(**{"raise": {"height": "500 mm"}})
    more = pd.DataFrame(higher.evaluate().ledger).set_index("name")
    assert more.loc["marker lamp wires, rear left post"].lengthen_mm == pytest.approx(440)
    assert more.loc["roof heater hose"].action == "lengthen", "its slack was enough for 400 mm"


def test_exits_by_place(plan: rb.Plan) -> None:
    exits = pd.DataFrame(plan.evaluate().exits).set_index("place")
    assert exits.before.to_dict() == exits.after.to_dict() == {"left": 1, "roof": 1, "rear": 1}


def test_the_gate_opens_last(plan: rb.Plan) -> None:
    build = plan.evaluate()
    gate = pd.DataFrame(build.gate).set_index("entry")
    assert tuple(gate.index) == QUESTIONS
    assert gate.loc["weather"].state == "open"
    assert not build.ready_to_cut
    assert build.readiness.startswith("not ready to cut: open questions: weather")
    assert "weather" in build.to_dict()["readiness"]
    for view in (str(build), build._repr_html_()):
        assert "not ready to cut" in view
        assert "marker lamp wires" in view


def test_a_wire_that_would_be_torn_is_refused(plan: rb.Plan) -> None:
    line = {"name": "wires", "kind": "wires", "bottom": "1 m", "top": "2.7 m", "action": "keep"}
    with pytest.raises(rb.InputError, match="would be torn") as caught:
        plan.replace(ledger=[line])
    assert caught.value.field == "ledger[0].action"
