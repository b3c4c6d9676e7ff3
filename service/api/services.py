"""What the routes are given: made in the composition root, found on the application."""

from dataclasses import dataclass
from typing import Annotated, cast

from fastapi import Depends, Request

from service.bell import Bell
from service.clock import Now
from service.db.unit_of_work import Database
from service.settings import Settings
from service.usecases.forecasts import SalesForecasts
from service.usecases.history import LaborHistories
from service.usecases.plans import PlanQueue
from service.usecases.released import ReleasedPlans
from service.values import PlanChoices
from service.what_ifs import Comparisons

ACTOR = "api"


@dataclass(frozen=True, slots=True)
class Services:
    """Everything the routes use."""

    settings: Settings
    database: Database
    queue: PlanQueue
    now: Now
    bell: Bell
    released: ReleasedPlans
    histories: LaborHistories
    comparisons: Comparisons
    forecasts: SalesForecasts

    @property
    def choices(self) -> PlanChoices:
        """How to search where a request does not say."""
        return PlanChoices(
            seconds=self.settings.plan_seconds,
            seed=self.settings.seed,
            workers=self.settings.workers,
        )


def _services(request: Request) -> Services:
    return cast("Services", request.app.state.services)


ServicesDep = Annotated[Services, Depends(_services)]
