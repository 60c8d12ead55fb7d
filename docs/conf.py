"""The documentation site: built offline by `make docs`, with no request to any other host in its pages."""

import ast
import re
from pathlib import Path
from typing import Any

from sphinx.application import Sphinx

import raisedbody

project = "raisedbody"
author = "the raisedbody contributors"
release = raisedbody.__version__

extensions = ["myst_nb", "sphinx.ext.autodoc", "sphinx.ext.napoleon"]
# `make docs` builds from the top of the repository, where the notebooks are and links between files hold.
include_patterns = ["docs/**", "notebooks/*.ipynb", "BENCHMARKS.md", "CHANGELOG.md", "DEVELOPERS.md", "RELIABILITY.md"]
root_doc = "docs/index"

# Docstrings: Google style, types from the signatures, single backticks lead to what they name.
default_role = "py:obj"
toc_object_entries_show_parents = "hide"
autodoc_default_options = {"members": True, "member-order": "bysource"}
autodoc_typehints_format = "short"
python_maximum_signature_line_length = 88
napoleon_numpy_docstring = False

# The notebooks are committed without output and run here. A cache would not know that the library has changed.
nb_execution_mode = "force"
nb_execution_raise_on_error = True
nb_execution_timeout = 300
nb_merge_streams = True

myst_enable_extensions = ["colon_fence", "deflist"]
myst_heading_anchors = 3

html_theme = "furo"
html_title = "raisedbody"
html_static_path = ["_static"]
html_extra_path = ["top"]  # leads to docs/index.html
html_css_files = ["site.css"]
html_copy_source = False
html_show_sourcelink = False
html_show_sphinx = False
html_show_copyright = False


def stubbed() -> tuple[dict[str, tuple[str, str | None]], dict[str, str]]:
    """Signatures and types of properties by full name, from the stubs: a compiled class tells only names."""
    signatures, types = {}, {}
    tree = ast.parse(Path(raisedbody.__file__).with_name("_core.pyi").read_text(encoding="utf-8"))
    for outer in tree.body:
        inside = outer.body if isinstance(outer, ast.ClassDef) else [outer]
        for own in (node for node in inside if isinstance(node, ast.FunctionDef)):
            path = ["raisedbody", *([outer.name] if own is not outer else []), own.name]
            returned = plainly(own.returns)
            if any(isinstance(mark, ast.Name) and mark.id == "property" for mark in own.decorator_list):
                types[".".join(path)] = returned
            elif own.name == "__new__":
                signatures[".".join(path[:-1])] = (f"({plainly(own.args)})", None)
            else:
                signatures[".".join(path)] = (f"({plainly(own.args)})", returned)
    return signatures, types


def plainly(node: ast.AST | None) -> str:
    """Types as people say them, without the object itself among the arguments."""
    text = re.sub(r"^(self|cls)\b(, /)?(, )?", "", ast.unparse(node) if node else "")
    return text.replace("SupportsFloat | SupportsIndex", "float").replace("SupportsIndex", "int").replace("'", "")


SIGNATURES, TYPES = stubbed()


def sign(app: Sphinx, what: str, name: str, *rest: object) -> tuple[str, str | None] | None:
    """Give a compiled class or function its types."""
    return SIGNATURES.get(name)


def read_as_meant(app: Sphinx, what: str, name: str, thing: object, options: Any, lines: list[str]) -> None:  # noqa: ANN401
    """Keep napoleon from taking words before a colon for a type, and docutils |x| for a substitution."""
    for i, line in enumerate(lines):
        begins = i == 0 if what in ("attribute", "property") else i > 0 and lines[i - 1].strip() == "Returns:"
        if begins and line.strip():
            words = line.lstrip()
            lines[i] = f"{line[: -len(words)]}: {words}"
        elif not line.lstrip().startswith((">>>", "...")):
            lines[i] = re.sub(r"\|(\w[^|]*\w)\|", r"\\|\1\\|", line)
    if any(own in raisedbody.__all__ for own in re.findall(r"\w+", TYPES.get(name, ""))):
        lines += ["", f":type: {TYPES[name]}"]


def setup(app: Sphinx) -> None:
    """Read docstrings before napoleon does."""
    app.connect("autodoc-process-signature", sign)
    app.connect("autodoc-process-docstring", read_as_meant, priority=400)
