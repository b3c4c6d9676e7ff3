"""What is written down of a run or a try; pages say it in their reader's language."""

from planner.wording import sentence

STOPPED_EARLY = sentence("It was stopped early: a longer search may find a better plan.")
STOPPED_BEFORE = sentence("it was stopped before it had a plan. Start it again.")
PROGRAM_ENDED = sentence("the program that was planning it ended. Start it again.")
PROGRAM_INTERRUPTED = sentence("the program that was planning it was interrupted. Start it again.")
TRY_FAILED = sentence("The program failed. Try it again.")
TRY_OUT_OF_MEMORY = sentence("It ended by itself; it may have run out of memory. Try it again.")


def no_files(why: OSError) -> str:
    """The plan is stored, its files are not."""
    return sentence("The sheet's files could not be written: {why}.", why=why)


def search_silent(seconds: float) -> str:
    """It was asked to stop and did not."""
    return sentence(
        "the search has not answered for {n:.0f} s and was ended. Start it again, with fewer "
        "seconds or a smaller kitchen.",
        n=seconds,
    )


def search_ended(code: int | None) -> str:
    """Its process is gone, without a word."""
    return sentence(
        "the search ended by itself, with exit code {code}, before it had answered; it may have "
        "run out of memory. Start it again, with fewer workers.",
        code=code,
    )


def program_failed(error: Exception) -> str:
    """Something that nobody thought of."""
    return sentence(
        "the program failed ({why}). The kitchen file is not at fault: start it again, and report "
        "this with the file if it comes back.",
        why=f"{type(error).__name__}: {error}",
    )
