"""The errors a user may meet, each with its exit code."""

from __future__ import annotations

from shared.record import Value

EXIT_FINE = 0
EXIT_CHECK_FAILED = 1
EXIT_BAD_INPUT = 2
EXIT_NO_MODEL = 3


def in_words(err: OSError | UnicodeDecodeError) -> str:
    """Say in plain words why a file could not be read or written."""
    if isinstance(err, UnicodeDecodeError):
        return f"text that is not UTF-8 (byte {err.start + 1} is 0x{err.object[err.start]:02x})"
    words = {
        FileNotFoundError: "nothing there",
        IsADirectoryError: "a folder",
        NotADirectoryError: "a file where a folder is needed",
        PermissionError: "no permission",
    }
    return words.get(type(err)) or (err.strerror or str(err) or "no answer from the system").lower()


class PlanewrightError(Exception):
    """Root of every error that is meant for the user."""

    exit_code = EXIT_BAD_INPUT


class Fault(Value):
    """One thing wrong with an input: where, what was read, what is allowed."""

    where: str  # file, file:line, an option, or a table row
    key: str
    read: str
    allowed: str
    hint: str = ""

    def __str__(self) -> str:
        """Return the one message of this fault."""
        hint = f" ({self.hint})" if self.hint else ""
        return f"{self.where}: {self.key}: read {self.read}; allowed: {self.allowed}{hint}"


class InputError(PlanewrightError, ValueError):
    """Bad input of any kind: spec, table file or command line. Carries every fault found."""

    exit_code = EXIT_BAD_INPUT

    def __init__(self, faults: list[Fault] | Fault) -> None:
        self.faults = [faults] if isinstance(faults, Fault) else list(faults)
        super().__init__("\n".join(str(f) for f in self.faults))

    def __reduce__(self) -> tuple[object, ...]:
        """Travel between processes with its faults."""
        return InputError, (self.faults,)


class RequestError(PlanewrightError, ValueError):
    """The request can be read but cannot be met (exit code 1), e.g. a blank that fits no board."""

    exit_code = EXIT_CHECK_FAILED


class GeometryError(PlanewrightError, RuntimeError):
    """A model could not be built. Says which part and which step, with the values at hand."""

    exit_code = EXIT_NO_MODEL

    def __init__(self, part: str, step: str, reason: str, **values: object) -> None:
        self.part, self.step, self.reason, self.values = part, step, reason, values
        tail = "".join(f", {k} = {v}" for k, v in values.items())
        super().__init__(f"{part}: step '{step}' could not be built: {reason}{tail}")

    def __reduce__(self) -> tuple[object, ...]:
        """Travel between processes as the message alone says it."""
        return _geometry_error, (self.part, self.step, self.reason, {k: str(v) for k, v in self.values.items()})


def _geometry_error(part: str, step: str, reason: str, values: dict[str, str]) -> GeometryError:
    return GeometryError(part, step, reason, **values)
