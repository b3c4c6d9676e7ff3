"""Exit codes: what a script may rely on."""

from enum import IntEnum

from planner.plan import Plan


class Exit(IntEnum):
    """How a command ended."""

    ON_TIME = 0
    """Done; where a plan was made, everything due is made on time."""
    FAILED = 1
    """The program failed."""
    BAD_INPUT = 2
    """A wrong option, setting or file."""
    LATE = 3
    """A plan was made, and something in it is late."""
    SHORT = 4
    """A plan was made, and something in it cannot be made."""
    INTERRUPTED = 130
    """Ctrl-C before there was anything to keep."""


def exit_of(plan: Plan) -> Exit:
    """The exit code of a plan; what is short weighs more than what is late."""
    if plan.short:
        return Exit.SHORT
    return Exit.LATE if plan.late else Exit.ON_TIME
