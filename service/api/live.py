"""Where the live pages of a plan's day are, for codes on paper."""

import uuid
from collections.abc import Callable
from typing import Annotated

from fastapi import Depends, Path, Request

from service.addresses import live_page, phone_address
from service.api.services import ServicesDep
from service.usecases.plans import plan_status

Live = Callable[[str], str]
"""Address of a cook's live page by the cook's id; empty where phones cannot get here."""


def _live(request: Request, services: ServicesDep, plan_id: Annotated[uuid.UUID, Path()]) -> Live:
    plan = plan_status(services.database, plan_id)
    port = services.settings.port or request.url.port or 80
    first = phone_address(services.settings, port)
    return lambda cook: live_page(first, plan.kitchen, plan.date, cook)


LiveDep = Annotated[Live, Depends(_live)]
