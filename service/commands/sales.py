"""``sales``: bring a sales history into the database, and put back what was brought."""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from planner.forecast.history import HistoryError
from planner.forecast.names import DISH, LEFT_OUT, SERVICE
from service.app import build
from service.clock import utc_now
from service.commands.exits import Exit
from service.commands.inputs import read_file
from service.commands.output import say, warn
from service.errors import RequestError, UserError
from service.sales_choices import Differ
from service.sales_csv import read_lines
from service.settings import Settings
from service.usecases.sales import (
    SalesAskedError,
    SalesFaultsError,
    SalesImport,
    SalesWish,
    put_back_sales,
    take_sales,
)

_ACTOR = "command"
_GAPS = 5


@dataclass(frozen=True, slots=True)
class SalesOptions:
    """What the options say: ``NAME=WHAT`` for services and dishes, and what is left out."""

    services: Sequence[str]
    dishes: Sequence[str]
    left_out: Sequence[str]
    differing: Differ


def import_sales(settings: Settings, slug: str, path: Path, options: SalesOptions) -> Exit:
    """Keep a file of sales, wholly or not at all."""
    answers = {
        **_answers(SERVICE, options.services),
        **_answers(DISH, options.dishes),
        **{(thing, name): LEFT_OUT for thing in (SERVICE, DISH) for name in options.left_out},
    }
    data = read_file(path)
    program = build(settings)
    try:
        lines = read_lines(data)
        wish = SalesWish(path.name[:120], answers, options.differing)
        found = take_sales(program.database, slug, lines, wish, actor=_ACTOR, now=utc_now)
    except (HistoryError, SalesFaultsError) as error:
        raise UserError(f"{path}: it cannot be used, and nothing is kept:\n{error}") from None
    except SalesAskedError as error:
        raise UserError(
            f"{path}: nothing is kept until this is answered, with --service NAME=NAME, --dish "
            f"NAME=ID, --leave-out NAME or --differing keep|replace:\n{error}"
        ) from None
    except RequestError as error:
        raise UserError(str(error)) from None
    finally:
        program.database.close()
    _print(path, found)
    return Exit.ON_TIME


def put_back(settings: Settings, slug: str, number: int) -> Exit:
    """Bring again what stood before an entry."""
    program = build(settings)
    try:
        made = put_back_sales(program.database, slug, number, actor=_ACTOR, now=utc_now)
    except RequestError as error:
        raise UserError(str(error)) from None
    finally:
        program.database.close()
    say(f"Entry {made} puts entry {number} back.")
    return Exit.ON_TIME


def _answers(thing: str, given: Sequence[str]) -> dict[tuple[str, str], str]:
    found = {}
    for one in given:
        name, equals, what = one.rpartition("=")
        if not (name and equals and what):
            raise UserError(f"--{thing}: {one!r} says nothing. Write NAME=WHAT.")
        found[thing, name] = what
    return found


def _print(path: Path, found: SalesImport) -> None:
    if found.number is None:
        say(f"{path}: nothing new; kept already: {found.same}.")
    else:
        say(
            f"{path}: entry {found.number}; new: {found.added}, replaced: {found.changed}, kept "
            f"already: {found.same}."
        )
    if found.left:
        say(f"Counts that differ from those kept, which stay: {found.left}.")
    if found.left_out:
        say(f"Lines left out: {found.left_out}.")
    newest = sorted(found.gaps, key=lambda gap: gap.date, reverse=True)
    for gap in newest[:_GAPS]:
        warn(f"Nothing of {gap.service} on {gap.date}: was it closed, or is it missing?")
    if len(found.gaps) > _GAPS:
        warn(f"And {len(found.gaps) - _GAPS} more such days.")
