"""The README's Python cells run as written, in order."""

import re
from pathlib import Path

import pytest


def test_readme_cells_run(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    root = Path.cwd()
    readme = (root / "README.md").read_text()
    (tmp_path / "my_bus.toml").write_text(re.findall(r"```toml\n(.*?)```", readme, re.DOTALL)[0])
    (tmp_path / "examples").symlink_to(root / "examples")
    monkeypatch.chdir(tmp_path)
    cells = re.findall(r"```python\n(.*?)```", readme, re.DOTALL)
    assert len(cells) == 13
    names: dict[str, object] = {}
    for cell in cells:
        exec(compile(cell, "README.md", "exec"), names)
    printed = capsys.readouterr().out
    assert "Bus of the README" in printed
    assert "F_b,Rd" in printed
    assert "left out: beaten" in printed
