"""Routes of the sales history for programs."""

from typing import Annotated

from fastapi import APIRouter, BackgroundTasks, Depends, Path
from pydantic import Field

from planner.forecast.history import Gap, Sale
from planner.forecast.names import DISH, SERVICE
from service.api.bodies import json_only
from service.api.kitchens import Slug
from service.api.problems import documented
from service.api.services import ACTOR, ServicesDep
from service.sales_values import SaleSent, SalesGap, SalesKept, SalesSent, SalesTaken
from service.usecases.sales import SalesWish, put_back_sales, take_sales
from service.values import Value

router = APIRouter(prefix="/kitchens/{slug}/sales", tags=["sales"])


class SalesPutBack(Value):
    """An entry of the sales history that puts another one back."""

    number: int = Field(description="Its number.")
    puts_back: int = Field(description="Number of the one that it puts back.")


@router.get(
    "",
    summary="Read the sales history",
    response_description="Every count that holds, by day, service and dish.",
    responses=documented(404),
)
def get_sales(slug: Slug, services: ServicesDep) -> SalesKept:
    """What was sold, and the days that may be missing."""
    now = services.forecasts.now(slug)
    return SalesKept(
        version=now.kept.version,
        lines=tuple(
            SaleSent(date=one.date, service=one.service, dish=one.dish, count=one.count)
            for one in now.kept.sales
        ),
        gaps=tuple(_gap(one) for one in now.history.gaps),
    )


@router.post(
    "",
    summary="Add to the sales history",
    response_description="What became of the lines.",
    responses=documented(403, 404, 409, 415, 422),
    dependencies=[Depends(json_only)],
)
def post_sales(
    slug: Slug, sent: SalesSent, services: ServicesDep, after: BackgroundTasks
) -> SalesTaken:
    """Keep lines, wholly or not at all. The same again changes nothing: send it until it is heard.

    Names that the kitchen does not know, and counts other than those kept, are refused with what
    may be answered; ``services``, ``dishes`` and ``differing`` answer.
    """
    answers = {(SERVICE, name): to for name, to in sent.services.items()}
    answers |= {(DISH, name): to for name, to in sent.dishes.items()}
    found = take_sales(
        services.database,
        slug,
        [
            Sale(one.date, one.service, one.dish, one.count, line)
            for line, one in enumerate(sent.lines, start=1)
        ],
        SalesWish(sent.source, answers, sent.differing),
        actor=ACTOR,
        now=services.now,
    )
    after.add_task(services.forecasts.renew, slug)
    return SalesTaken(
        number=found.number,
        added=found.added,
        changed=found.changed,
        same=found.same,
        left=found.left,
        left_out=found.left_out,
        gaps=tuple(_gap(one) for one in found.gaps),
    )


@router.post(
    "/{number}/back",
    summary="Put an entry of the sales history back",
    response_description="The entry that does so.",
    responses=documented(403, 404, 409),
)
def post_back(
    slug: Slug,
    number: Annotated[
        int, Path(ge=1, le=2**31 - 1, description="Number of the entry, from 1 within its kitchen.")
    ],
    services: ServicesDep,
    after: BackgroundTasks,
) -> SalesPutBack:
    """Bring again what stood before an entry. Nothing is taken out of the history by that."""
    made = put_back_sales(services.database, slug, number, actor=ACTOR, now=services.now)
    after.add_task(services.forecasts.renew, slug)
    return SalesPutBack(number=made, puts_back=number)


def _gap(one: Gap) -> SalesGap:
    return SalesGap(date=one.date, service=one.service)
