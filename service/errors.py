"""What can go wrong in a use case. Every error names the field, its value and the remedy."""

from dataclasses import dataclass


class UserError(Exception):
    """Something whoever runs the program can mend; the message names it and says how."""


@dataclass(frozen=True, slots=True)
class Fault:
    """One thing that is wrong with what was asked for."""

    path: str
    value: str
    message: str
    remedy: str

    def __str__(self) -> str:
        return f"{self.path}: {self.value}: {self.message}. {self.remedy}"


class RequestError(Exception):
    """What was asked for cannot be done; ``faults`` says why, all of it."""

    def __init__(self, *faults: Fault) -> None:
        super().__init__("\n".join(str(fault) for fault in faults))
        self.faults = faults


class NotFoundError(RequestError):
    """There is no such thing."""


class ConflictError(RequestError):
    """It contradicts what is stored already."""


class WishError(RequestError):
    """A batch cannot be moved or held so."""


class StaleError(ConflictError):
    """Somebody else has changed meanwhile what this change was made from."""


class InvalidError(RequestError):
    """What was sent or chosen cannot be; ``faults`` says what can."""


class NotReadyError(RequestError):
    """It is not there yet: whoever looks again in a moment may find it."""


class NothingMadeError(RequestError):
    """It is not there and will not be: the run that should have made it has failed."""


class AskedError(ConflictError):
    """It needs an answer first; ``faults`` say to what, and how it is given."""
