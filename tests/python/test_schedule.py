"""Hanging order and schedule as a user works with them. Laws and brute force are tested in Rust."""

import json
import pickle
import random

import networkx as nx
import pint
import pytest

import raisedbody as rb
from raisedbody.exceptions import InputError, LapLoopError, QuantityError

LIBRARY = "examples/mobile_library.toml"


def test_order_is_that_of_a_general_graph_library() -> None:
    # networkx: lexicographical_topological_sort with the same key, and a shortest cycle of its own.
    draw = random.Random(6)
    loops = 0
    for _ in range(300):
        count = draw.randint(2, 12)
        things = [f"S{i}" for i in range(count)]
        draw.shuffle(things)
        # (over, under)
        laps = [tuple(draw.sample(things, 2)) for _ in range(draw.randint(0, 2 * count))]
        graph = nx.DiGraph([(under, over) for over, under in laps])
        graph.add_nodes_from(things)
        if nx.is_directed_acyclic_graph(graph):
            expected = nx.lexicographical_topological_sort(graph, key=things.index)
            assert rb.hanging_order(laps, things=things) == tuple(expected)
            continue
        loops += 1
        with pytest.raises(LapLoopError) as caught:
            rb.hanging_order(laps, things=things)
        loop = caught.value.loop
        shortest = min(len(cycle) for cycle in nx.simple_cycles(graph))
        assert len(loop) == shortest
        assert all((over, under) in laps for over, under in zip(loop, (*loop[1:], loop[0]), strict=True))
    assert loops > 50


def test_a_loop_is_an_error_with_its_names() -> None:
    with pytest.raises(InputError, match="A laps over B, B over C, C over A") as caught:
        rb.hanging_order([("A", "B"), ("B", "C"), ("C", "A"), ("A", "D")])
    error = caught.value
    assert isinstance(error, LapLoopError)
    assert (error.loop, error.field, error.value) == (("A", "B", "C"), "laps", "A laps over B, B over C, C over A")
    again = pickle.loads(pickle.dumps(error))
    assert (again.loop, again.problems, str(again)) == (error.loop, error.problems, str(error))
    with pytest.raises(InputError, match=r"things\[1\]: A: this is named twice"):
        rb.hanging_order([], things=["A", "A"])
    with pytest.raises(TypeError, match="not one text"):
        rb.hanging_order("AB")


def tasks() -> list[rb.Task]:
    """Two sheets, hung warm."""
    warm = ("10:00", "16:00")
    return [
        rb.Task("strip", "strip", work="2 h"),
        rb.Task("hang A1", "hang", work="2 h", after=["strip"], on="A1", starts_within=warm, whole=True),
        rb.Task("hang A2", "hang", work="2 h", after=["hang A1"], on="A2", starts_within=warm, whole=True),
        rb.Task("rivet A1", "rivet", work="9 h", after=["hang A2"], on="A1"),
        rb.Task("seal A1", "seal", work="1 h", after=["rivet A1"], on="A1"),
        rb.Task("cure A1", "cure", lasts="12 h", after=["seal A1"], on="A1"),
    ]


def schedule(**changes: object) -> rb.Schedule:
    """Three people from 8 to 16."""
    given = {"people": 3, "day": "8 h", "start": "8:00", "tools": 1, **changes}
    return rb.Schedule(given.pop("tasks", tasks()), **given)


def test_who_does_what_on_which_day() -> None:
    made = schedule(openings=[("left", ["strip"], ["seal A1"])])
    rows = list(made.by_day.rows())
    assert [(row["day"], row["start"], row["end"], row["task"]) for row in rows] == [
        (1, "08:00", "10:00", "strip"),
        (1, "10:00", "10:40", "hang A1"),
        (1, "10:40", "11:20", "hang A2"),
        (1, "11:20", "15:50", "rivet A1"),
        (1, "15:50", "16:00", "seal A1"),
        (2, "08:00", "08:50", "seal A1"),
        (2, "08:50", "20:50", "cure A1"),
    ]
    by_task = made.by_task
    assert by_task["waits_for"].tolist() == ["nothing", "strip", "hang A1", "hang A2", "rivet A1", "seal A1"]
    assert by_task["end_h"].tolist() == pytest.approx([2, 8 / 3, 10 / 3, 7 + 5 / 6, 24 + 5 / 6, 36 + 5 / 6])
    assert by_task["critical"].all()
    assert made.critical_chain == tuple(task.name for task in made.tasks)
    assert (made.makespan_h, made.gap_ratio) == (pytest.approx(36 + 5 / 6), 0)
    assert made.path_bound_h >= made.people_bound_h >= made.tools_bound_h > 0
    assert made.labour_h == 2 + 2 + 2 + 9 + 1
    evenings = made.evenings
    assert evenings["weathertight"].tolist() == ["no", "yes"]
    assert evenings["hung"].tolist() == ["A1; A2", ""]
    assert evenings["open"].tolist() == ["left", ""]


def test_what_cannot_be_closed_the_same_day_waits_or_is_refused() -> None:
    openings = [("left", ["strip"], ["seal A1"])]
    with pytest.raises(InputError, match="left is not closed on the day of opening: 5 tasks of 16") as caught:
        schedule(openings=openings, close_same_day=True)
    assert caught.value.field == "close_same_day"
    held = schedule(openings=openings, close_same_day=True, day="9 h")
    # The sealant cures overnight.
    assert held.evenings["weathertight"].tolist() == ["yes", "yes"]


def test_it_is_shown_kept_and_compared() -> None:
    made = schedule(openings=[("left", ["strip"], ["seal A1"])])
    assert pickle.loads(pickle.dumps(made)) == made
    assert repr(made) == "<Schedule of 6 tasks: 36.833 h by the clock>"
    assert len(made) == 6
    assert "2 days of 08:00 to 16:00 with 3 people" in str(made)
    assert "<table>" in made._repr_html_()
    assert json.loads(json.dumps(made.to_dict()))["by_day"][0]["task"] == "strip"
    task = tasks()[1]
    assert eval(repr(task), {"Task": rb.Task}) == task == pickle.loads(pickle.dumps(task))
    assert task.to_dict()["starts_within"] == ("10:00", "16:00")
    assert (task.elapsed_h, task.labour_h) == (pytest.approx(2 / 3), 2)


def test_quantities_of_other_libraries() -> None:
    hour = pint.UnitRegistry().hour
    assert rb.Task("strip", "strip", work=2 * hour) == rb.Task("strip", "strip", work="2 h")


@pytest.mark.parametrize(
    ("changes", "message"),
    [
        ({"people": 2}, r"tasks\[1\].people: 3 is out of range; allowed: at most 2"),
        ({"tools": 0}, r"tasks\[3\].tools: 1 is out of range"),
        ({"people": -1}, "people: -1 is out of range; allowed: 1 to 1000"),
        ({"start": "8 am"}, "start: 8 am is no time of day"),
        ({"day": "20 h"}, "start: 08:00: a day of 20 h would end after midnight"),
        ({"tasks": []}, "tasks: missing"),
        ({"tasks": [*tasks(), tasks()[0]]}, r"tasks\[6\].name: strip: this is named twice"),
        (
            {"tasks": [rb.Task("seal A1", "seal", work="1 h", after=["rivet A2", "seal A2"])]},
            r'tasks\[0\].after: unknown task "rivet A2"',
        ),
        ({"tasks": [rb.Task("hang", "hang", lasts="9 h", whole=True)]}, r"tasks\[0\].lasts: 9.00 h: .*cut by night"),
        ({"tasks": [rb.Task("hang", "hang", work="-1 h")]}, r"tasks\[0\].work: -1 h is out of range"),
        (
            {"tasks": [rb.Task("A", "seal", work="1 h", after=["B"]), rb.Task("B", "seal", work="1 h", after=["A"])]},
            "A before B, B before A",
        ),
        ({"openings": [("left", [], ["seal A1"])]}, r"openings\[0\].opened_by: missing"),
        ({"openings": [("left", ["strip"], ["seal A9"])]}, r"openings\[0\].closed_by: unknown task"),
    ],
)
def test_bad_jobs(changes: dict[str, object], message: str) -> None:
    with pytest.raises(InputError, match=message):
        schedule(**changes)


def test_bad_tasks() -> None:
    with pytest.raises(InputError) as caught:
        rb.Task(" ", "rivit", work="1 h", lasts="1 h", starts_within=("10", "16:00"))
    assert [problem.field for problem in caught.value.problems] == ["kind", "lasts", "name", "starts_within"]
    with pytest.raises(InputError, match="work: missing"):
        rb.Task("rivet", "rivet")
    with pytest.raises(QuantityError, match="no unit"):
        rb.Task("rivet", "rivet", work=3)


def test_the_example_plan_has_an_order_and_a_schedule() -> None:
    build = rb.Plan.read(LIBRARY).evaluate()
    order = build.hanging_order
    names = order["sheet"].tolist()
    assert len(names) == build.sheets_count
    # The top row first, from the rear; the lower row is slid behind it.
    assert [name for name in names if name.startswith("L-")] == ["L-A1", "L-A2", "L-A3", "L-B1", "L-B2", "L-B3"]
    assert order["reason"][names.index("L-B2")] == "laps over L-B1; is slid behind L-A2"
    made = build.schedule
    assert made is not None
    assert made.labour_h == pytest.approx(build.labour_h, rel=1e-12)
    assert made.gap_ratio < 0.05
    hang = {row["on"]: row for row in made.by_task.rows() if row["kind"] == "hang"}
    assert sorted(hang) == sorted(names)
    for name, after in zip(names, order["after"].tolist(), strict=True):
        for before in filter(None, after.split("; ")):
            assert hang[before]["end_h"] <= hang[name]["start_h"]
    assert all("10:00" <= row["start"] < "16:00" for row in hang.values())
    assert pickle.loads(pickle.dumps(made)) == made
    assert build.to_dict()["schedule"]["labour_h"] == made.labour_h


def test_without_a_crew_there_is_an_order_and_no_schedule() -> None:
    build = rb.Plan.read("examples/workshop_bus.toml").evaluate()
    assert build.schedule is None
    assert build.hanging_order.height == build.sheets_count
    assert "no schedule: the plan has no crew" in str(build)
