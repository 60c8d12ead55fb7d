"""The public interface used as a typed program would; `make test` puts it through `mypy --strict`."""

import raisedbody as rb
from raisedbody.exceptions import InputError, PlanFileError, PlanSyntaxError


def where(error: InputError) -> list[str]:
    """Each problem with its place."""
    return [f"{problem.field or 'plan'}:{problem.line or '?'}: {problem.message}" for problem in error.problems]


def file_of(error: PlanFileError) -> str:
    """The file and the number of the system's error."""
    return f"{error.filename} ({error.errno})"


def main() -> None:
    """Use what the package offers."""
    version: str = rb.__version__
    place: tuple[int, int] | None = None
    try:
        raise PlanSyntaxError("not valid TOML", 3, 7)
    except PlanSyntaxError as error:
        place = (error.line, error.column)
    print(version, place, where(InputError("no plan")), file_of(PlanFileError("cannot read", 2, "bus.toml")))


if __name__ == "__main__":
    main()
