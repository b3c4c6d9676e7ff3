"""The composition root: every part is made here, once, and given to those who use it."""

import threading
import uuid
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from dataclasses import dataclass
from pathlib import Path

from fastapi import FastAPI
from starlette.middleware.gzip import GZipMiddleware

from service.addresses import live_page, names_on, phone_address
from service.api import (
    bench,
    building,
    comparing,
    costs,
    days,
    enrol,
    floor,
    floor_pages,
    happened,
    kitchens,
    labor_pages,
    moving,
    pages,
    plans,
    printing,
    problems,
    rates,
    releasing,
    sales,
    sales_pages,
    yields,
)
from service.api.description import OPENAPI_PATH, describe
from service.api.guards import RequestGuard
from service.api.headers import ResponseHeaders
from service.api.reading import ReadingLayer
from service.api.services import Services
from service.api.static import mount_static
from service.bell import Bell, plan_topic
from service.clock import Now, utc_now
from service.comparing import MakeComparison, compare_kitchens
from service.db.engine import make_engine
from service.db.migrate import migrate
from service.db.unit_of_work import Database
from service.errors import UserError
from service.planning import MakePlan, make_plan
from service.runner import Runner
from service.settings import Settings, load_settings
from service.sheet_files import Live, LiveOf, SheetFiles
from service.usecases.forecasts import SalesForecasts
from service.usecases.history import LaborHistories
from service.usecases.plans import plan_status
from service.usecases.released import ReleasedPlans
from service.usecases.running import RunTools
from service.what_ifs import Comparisons

_WORTH_IT = 1000
"""Bytes: shorter answers are not compressed."""
_LEVEL = 5
"""Of gzip: the highest takes longer than a page takes to make, for a few bytes in a hundred."""


class DataDirError(UserError):
    """The data folder cannot be used; the message names it and the remedy."""


@dataclass(frozen=True, slots=True)
class Program:
    """The parts that the command line and the server share."""

    settings: Settings
    database: Database
    files: SheetFiles
    tools: RunTools


def build(settings: Settings, make: MakePlan = make_plan, now: Now = utc_now) -> Program:
    """Make the parts; the database is brought to this version's tables.

    Parameters
    ----------
    settings
        Where things are and how to search.
    make
        Makes a plan; a function of a module.
    now
        The clock.

    Raises
    ------
    DataDirError
        The data folder cannot be written to.
    service.db.migrate.DatabaseVersionError
        The database was made by a newer version.
    """
    _check_writable(settings.data_dir)
    migrate(settings.url)
    database = Database(make_engine(settings.url))
    live = _live_pages(settings, database)
    files = SheetFiles(settings.sheets_dir, live, language=settings.language)
    return Program(settings, database, files, RunTools(database, make, files.write, now))


def _live_pages(settings: Settings, database: Database) -> LiveOf:
    """Where the cooks of a plan find their live pages, by the port that was set."""

    def of(plan_id: uuid.UUID) -> Live:
        plan = plan_status(database, plan_id)
        first = phone_address(settings, settings.port)
        return lambda cook: live_page(first, plan.kitchen, plan.date, cook)

    return of


def create_app(
    settings: Settings | None = None,
    make: MakePlan = make_plan,
    now: Now = utc_now,
    compare: MakeComparison = compare_kitchens,
) -> FastAPI:
    """Make the web application; see ``build`` for the parameters and errors.

    ``compare`` plans a day as it is and changed; a function of a module.
    """
    program = build(settings or load_settings(), make, now)
    bell = Bell()
    comparisons = Comparisons(program.database, compare)
    forecasts = SalesForecasts(program.database)
    runner = Runner(program.tools, tell=lambda plan_id: bell.ring(plan_topic(plan_id)))

    @asynccontextmanager
    async def lifespan(_: FastAPI) -> AsyncIterator[None]:
        runner.start()
        comparisons.start()
        # No page waits for it: whoever comes first would.
        first = threading.Thread(target=forecasts.renew_all, daemon=True)
        first.start()
        yield
        first.join()
        comparisons.stop()
        runner.stop()
        program.database.close()

    app = FastAPI(
        openapi_url=OPENAPI_PATH,
        # The interactive pages would fetch their scripts from elsewhere.
        docs_url=None,
        redoc_url=None,
        # Each thing has one address: a redirect would be an answer of its own to follow.
        redirect_slashes=False,
        lifespan=lifespan,
    )
    app.state.services = Services(
        settings=program.settings,
        database=program.database,
        queue=runner,
        now=now,
        bell=bell,
        released=ReleasedPlans(program.database),
        histories=LaborHistories(program.database),
        comparisons=comparisons,
        forecasts=forecasts,
    )
    problems.install(app)
    describe(app)
    app.include_router(kitchens.router, prefix="/api/v1")
    app.include_router(plans.router, prefix="/api/v1")
    app.include_router(moving.router, prefix="/api/v1")
    app.include_router(floor.router, prefix="/api/v1")
    app.include_router(sales.router, prefix="/api/v1")
    app.include_router(floor.stream_router)
    app.include_router(floor_pages.router)
    app.include_router(happened.router)
    app.include_router(enrol.router)
    app.include_router(labor_pages.router)
    app.include_router(days.router)
    app.include_router(building.router)
    app.include_router(releasing.router)
    app.include_router(comparing.router)
    app.include_router(moving.pages_router)
    app.include_router(costs.router)
    app.include_router(sales_pages.router)
    app.include_router(rates.router)
    app.include_router(printing.router)
    app.include_router(bench.router)
    app.include_router(yields.router)
    app.include_router(pages.router)
    mount_static(app)
    # Kitchens have slow networks. Event streams are left as they are.
    app.add_middleware(GZipMiddleware, minimum_size=_WORTH_IT, compresslevel=_LEVEL)
    app.add_middleware(RequestGuard, hosts=program.settings.hosts | set(names_on(program.settings)))
    app.add_middleware(ReadingLayer)
    app.add_middleware(ResponseHeaders)
    return app


def _check_writable(folder: Path) -> None:
    try:
        folder.mkdir(parents=True, exist_ok=True)
        probe = folder / ".writable"
        probe.touch()
        probe.unlink()
    except OSError as error:
        raise DataDirError(
            f"PREPWRIGHT_DATA_DIR: {folder}: the folder cannot be written to ({error.strerror}). "
            "Make it writable, or set PREPWRIGHT_DATA_DIR to a folder that is."
        ) from None
