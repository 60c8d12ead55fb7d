"""What a user reads when a plan cannot be used."""

from pathlib import Path

import pytest

import raisedbody as rb

TEXT = Path(__file__).parents[2].joinpath("examples/workshop_bus.toml").read_text()


@pytest.mark.parametrize(
    ("old", "new", "field", "words"),
    [
        ("gauge = 18", "guage = 18", "skin.guage", 'did you mean "gauge"'),
        ("gauge = 18", "gauge = 180", "skin.gauge", "0 to 40"),
        ('coating = "G90"', 'coating = "G91"', "skin.coating", 'did you mean "G90"'),
        ('height = "250 mm"', 'height = "250"', "raise.height", "no unit"),
        ('height = "250 mm"', "height = 250", "raise.height", "write a length as text"),
        ('height = "250 mm"', 'height = "3 m"', "raise.height", "3 m is out of range"),
        ('height = "250 mm"', 'height = "250 kg"', "raise.height", "no unit of length"),
        ('places = ["EU"]', 'places = ["UE"]', "service.places[0]", "unknown place"),
        ("schema = 1", "schema = 2", "schema", "Install a newer version"),
    ],
)
def test_each_error_names_field_and_fix(old: str, new: str, field: str, words: str) -> None:
    assert old in TEXT
    with pytest.raises(rb.InputError) as caught:
        rb.Plan.from_text(TEXT.replace(old, new))
    assert caught.value.field == field
    assert words in str(caught.value)
    if field != "schema":
        line = next(i for i, row in enumerate(TEXT.replace(old, new).splitlines(), 1) if new in row)
        assert caught.value.problems[0].line == line


def test_independent_problems_come_at_once() -> None:
    text = TEXT.replace("gauge = 18", "guage = 18").replace('height = "250 mm"', 'height = "9 m"')
    text = text.replace('places = ["EU"]', 'places = ["Atlantis"]')
    with pytest.raises(rb.InputError) as caught:
        rb.Plan.from_text(text)
    assert {p.field for p in caught.value.problems} == {"skin.guage", "raise.height", "service.places[0]"}
    assert str(caught.value).startswith("3 problems")


def test_broken_toml_names_line_and_column() -> None:
    with pytest.raises(rb.PlanSyntaxError) as caught:
        rb.Plan.from_text('schema = 1\nname = "x\n')
    assert caught.value.line == 2
    assert "line 2" in str(caught.value)


def test_missing_file_is_a_missing_file(tmp_path: Path) -> None:
    with pytest.raises(FileNotFoundError, match=r"nothing\.toml") as caught:
        rb.Plan.read(tmp_path / "nothing.toml")
    assert isinstance(caught.value, rb.PlanFileError)
    with pytest.raises(rb.RaisedbodyError):
        rb.Plan.read(tmp_path)


def test_entries_of_the_wrong_python_type() -> None:
    plan = rb.Plan.from_text(TEXT)
    with pytest.raises(TypeError, match="set"):
        plan.replace(raise_={"windows_kept": {2, 3}})
    with pytest.raises(TypeError):
        plan.replace(3)  # type: ignore[arg-type]
    loop: dict[str, object] = {}
    loop["skin"] = loop
    with pytest.raises(rb.InputError, match="hold itself"):
        plan.replace(loop)
