"""Texts that are kept as they were said, in the language of whoever reads them.

A run writes down what became of it in the source's language: nobody reads there. What the planner
says stays as it is.
"""

import re
from functools import cache, partial

from web.language import _, marked

STOPPED_EARLY = marked("It was stopped early: a longer search may find a better plan.")
STOPPED_BEFORE = marked("it was stopped before it had a plan. Start it again.")
PROGRAM_ENDED = marked("the program that was planning it ended. Start it again.")
PROGRAM_INTERRUPTED = marked("the program that was planning it was interrupted. Start it again.")
NO_FILES = marked("The sheet's files could not be written: %(why)s.")
SEARCH_SILENT = marked(
    "the search has not answered for %(seconds)s s and was ended. Start it again, with fewer "
    "seconds or a smaller kitchen."
)
SEARCH_ENDED = marked(
    "the search ended by itself, with exit code %(code)s, before it had answered; it may have run "
    "out of memory. Start it again, with fewer workers."
)
PROGRAM_FAILED = marked(
    "the program failed (%(why)s). The kitchen file is not at fault: start it again, and report "
    "this with the file if it comes back."
)
TRY_FAILED = marked("The program failed. Try it again.")
TRY_OUT_OF_MEMORY = marked("It ended by itself; it may have run out of memory. Try it again.")

_KNOWN = (
    STOPPED_EARLY,
    STOPPED_BEFORE,
    PROGRAM_ENDED,
    PROGRAM_INTERRUPTED,
    NO_FILES,
    SEARCH_SILENT,
    SEARCH_ENDED,
    PROGRAM_FAILED,
    TRY_FAILED,
    TRY_OUT_OF_MEMORY,
)
_PLACE = re.compile(r"%\((\w+)\)s")


def stored_words(text: str) -> str:
    """``text`` with every sentence that is known in the language of the page."""
    for sentence in _KNOWN:
        text = _pattern(sentence).sub(partial(_filled, sentence), text)
    return text


def _filled(sentence: str, found: re.Match[str]) -> str:
    return _(sentence, **found.groupdict())


@cache
def _pattern(sentence: str) -> re.Pattern[str]:
    """What a sentence looks like with its places filled."""
    parts = _PLACE.split(sentence)
    return re.compile(
        "".join(
            f"(?P<{part}>.+?)" if number % 2 else re.escape(part)
            for number, part in enumerate(parts)
        ),
        re.DOTALL,
    )
