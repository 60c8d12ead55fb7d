"""The documentation site: built offline by `make docs`, with no request to any other host in its pages."""

import re
from typing import Any

from sphinx.application import Sphinx

import raisedbody

project = "raisedbody"
author = "the raisedbody contributors"
release = raisedbody.__version__

extensions = ["myst_nb", "sphinx.ext.autodoc", "sphinx.ext.napoleon"]
# `make docs` builds from the top of the repository, where the notebooks are and links between files hold.
include_patterns = ["docs/**", "notebooks/*.ipynb", "BENCHMARKS.md", "CHANGELOG.md", "DEVELOPERS.md"]
root_doc = "docs/index"

# Docstrings: Google style, types from the signatures, single backticks lead to what they name.
default_role = "py:obj"
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


def read_as_meant(app: Sphinx, what: str, name: str, thing: object, options: Any, lines: list[str]) -> None:  # noqa: ANN401
    """Keep napoleon from taking words before a colon for a type, and docutils |x| for a substitution."""
    for i, line in enumerate(lines):
        begins = i == 0 if what in ("attribute", "property") else i > 0 and lines[i - 1].strip() == "Returns:"
        if begins and line.strip():
            words = line.lstrip()
            lines[i] = f"{line[: -len(words)]}: {words}"
        elif not line.lstrip().startswith((">>>", "...")):
            lines[i] = re.sub(r"\|(\w[^|]*\w)\|", r"\\|\1\\|", line)


def setup(app: Sphinx) -> None:
    """Run before napoleon."""
    app.connect("autodoc-process-docstring", read_as_meant, priority=400)
