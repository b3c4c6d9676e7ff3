"""``demo``: the bundled kitchen, planned for today, as sheets and served."""

import datetime as dt
from contextlib import ExitStack
from importlib.resources import files

from planner.kitchen.dates import moved_to
from planner.kitchen.document import Kitchen
from planner.kitchen.reading import read_kitchen
from service.app import Program, build, create_app
from service.clock import utc_now
from service.commands.display import PlanDisplay
from service.commands.exits import Exit, exit_of
from service.commands.inputs import choices_of, day_of
from service.commands.interrupts import stop_on_interrupt
from service.commands.invented_sales import add_sales
from service.commands.output import remarks, say, warn
from service.commands.past import add_past
from service.commands.serve import address_of, listen, serve_on
from service.commands.summary import summary_lines
from service.documents import kitchen_bytes
from service.errors import UserError
from service.planning import Made, MakePlan
from service.settings import Settings
from service.sheet_files import INDEX
from service.solving import Solved, SolveError, StoppedError
from service.stored_words import STOPPED_EARLY
from service.usecases.kitchens import store_kitchen
from service.usecases.plans import request_plan
from service.usecases.running import Watcher, run_plan
from service.values import PlanStatus

_ACTOR = "demo"


def demo(
    settings: Settings,
    date: dt.datetime | None,
    seconds: float | None,
    make: MakePlan,
    *,
    once: bool,
    past: int = 0,
) -> Exit:
    """Plan the bundled kitchen, write its sheets, sum up, and serve unless ``once``.

    ``past`` days before are invented first.
    """
    with ExitStack() as stack:
        # Taken before the search, so that a port in use is told at once.
        listener = None if once else stack.enter_context(listen(settings))
        program = build(settings, make)
        stack.callback(program.database.close)
        try:
            _invent(program, date, past)
            _invent_sales(program, date)
            solved = _plan_today(program, date, seconds)
        except StoppedError:
            return Exit.INTERRUPTED
        except SolveError as error:
            if error.refused:
                raise UserError(str(error)) from None
            warn(f"{error}\n{error.details}")
            return Exit.FAILED
        for line in summary_lines(solved.made):
            say(line)
        if listener is None:
            return exit_of(solved.made.plan)
        say(f"Read it at {address_of(listener, settings)}")
        serve_on(listener, create_app(settings, make), settings)
    return Exit.ON_TIME


def _invent(program: Program, date: dt.datetime | None, days: int) -> None:
    if days == 0:
        return
    many = "1 past day with its" if days == 1 else f"{days} past days with their"
    say(f"Inventing {many} ticks; nobody worked them ...")
    bundled = _bundled()
    with stop_on_interrupt(program.tools.stop):
        slug = add_past(program, bundled, day_of(bundled, date), days)
    say(f"The manager's pages of them: /kitchens/{slug}/labor")


def _invent_sales(program: Program, date: dt.datetime | None) -> None:
    """Weeks of sales before the day, so that what is usual stands on its page."""
    bundled = _bundled()
    today = day_of(bundled, date)
    data = kitchen_bytes(moved_to(bundled, today))
    stored = store_kitchen(program.database, data, actor=_ACTOR, now=utc_now)
    slug = stored.kitchen.slug
    added = add_sales(program.database, slug, bundled, today)
    if added:
        say(f"Invented what was sold before; nobody bought it: /kitchens/{slug}/sales")


def _bundled() -> Kitchen:
    return read_kitchen(files("seed_data").joinpath("demo.json").read_bytes())


def _plan_today(program: Program, date: dt.datetime | None, seconds: float | None) -> Solved:
    status = _ask(program, date, seconds)

    def first(made: Made) -> None:
        display.first(made)
        page = program.files.folder(status.id, made) / INDEX
        display.say(f"First sheet after {display.seconds:.1f} s: {page.resolve().as_uri()}")

    tools = program.tools
    with stop_on_interrupt(tools.stop), PlanDisplay(remarks(), status.choices) as display:
        solved = run_plan(tools, status.id, Watcher(first, display.progress))
    if not solved.finished:
        warn(STOPPED_EARLY)
    folder = program.files.folder(status.id, solved.made).resolve()
    say(f"Sheets: {(folder / INDEX).as_uri()}")
    return solved


def _ask(program: Program, date: dt.datetime | None, seconds: float | None) -> PlanStatus:
    bundled = _bundled()
    today = day_of(bundled, date)
    kitchen = moved_to(bundled, today)
    stored = store_kitchen(program.database, kitchen_bytes(kitchen), actor=_ACTOR, now=utc_now)
    return request_plan(
        program.database,
        stored.kitchen.slug,
        today,
        choices_of(program.settings, seconds),
        actor=_ACTOR,
        now=utc_now,
    )
