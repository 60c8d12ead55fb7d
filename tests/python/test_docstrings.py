"""The examples in the docstrings run and give what they show."""

import doctest
import inspect

import pytest

import raisedbody as rb
from raisedbody import exceptions, plot, quantity, table


def _documented() -> dict[str, str]:
    found = {module.__name__: module.__doc__ or "" for module in (rb, exceptions, plot, quantity, table)}
    things = [(name, getattr(rb, name)) for name in rb.__all__]
    for module in (exceptions, plot):
        things += [(f"{module.__name__}.{name}", getattr(module, name)) for name in module.__all__]
    for name, thing in things:
        found[name] = inspect.getdoc(thing) or ""
        for inner, member in vars(thing).items() if inspect.isclass(thing) else ():
            found[f"{name}.{inner}"] = inspect.getdoc(getattr(thing, inner, member)) or ""
    return {name: doc for name, doc in found.items() if ">>>" in doc}


DOCUMENTED = _documented()


@pytest.mark.parametrize("name", DOCUMENTED)
def test_examples(name: str) -> None:
    scope = {**vars(exceptions), **vars(rb)}
    test = doctest.DocTestParser().get_doctest(DOCUMENTED[name], scope, name, None, None)
    runner = doctest.DocTestRunner(optionflags=doctest.ELLIPSIS | doctest.IGNORE_EXCEPTION_DETAIL)
    said: list[str] = []
    runner.run(test, out=said.append)
    assert runner.summarize(verbose=False).failed == 0, "".join(said)


def test_everything_public_says_what_it_is() -> None:
    for name in rb.__all__:
        if name not in ("__version__", "exceptions"):
            assert inspect.getdoc(getattr(rb, name)), name
