"""Routes of kitchen files."""

from typing import Annotated

from fastapi import APIRouter, Path, Response

from planner.kitchen.document import Kitchen
from service.api.bodies import JsonBytes
from service.api.problems import LOCATION, documented
from service.api.services import ACTOR, ServicesDep
from service.usecases.kitchens import kitchen_file, list_kitchens, store_kitchen
from service.values import KitchenSummary

router = APIRouter(prefix="/kitchens", tags=["kitchens"])

Slug = Annotated[
    str,
    Path(
        pattern=r"^[a-z0-9]+(-[a-z0-9]+)*$",
        max_length=80,
        description="The kitchen's name in addresses: lower-case letters, digits and hyphens.",
    ),
]
_BODY = {
    "requestBody": {
        "required": True,
        "description": "A kitchen file, UTF-8 JSON, at most 5 MB.",
        "content": {"application/json": {"schema": {"$ref": "#/components/schemas/Kitchen"}}},
    }
}


@router.get("", summary="List the kitchens", responses=documented())
def get_kitchens(services: ServicesDep) -> tuple[KitchenSummary, ...]:
    """Every stored kitchen with the newest version of its file, by name."""
    return list_kitchens(services.database)


@router.post(
    "",
    status_code=201,
    summary="Store a new kitchen",
    response_description="The stored kitchen; Location has its address.",
    responses={201: LOCATION, **documented(403, 409, 415, 422)},
    openapi_extra=_BODY,
)
def post_kitchen(body: JsonBytes, services: ServicesDep, response: Response) -> KitchenSummary:
    """Check a kitchen file and store it under a name made from its own.

    Every error of the file is reported at once, each with its place, value and remedy, and nothing
    is stored. The same file again is answered in the same way and changes nothing.
    """
    stored = store_kitchen(services.database, body, actor=ACTOR, now=services.now, must_be_new=True)
    response.headers["Location"] = f"/api/v1/kitchens/{stored.kitchen.slug}"
    return stored.kitchen


@router.get(
    "/{slug}",
    summary="Read a kitchen file",
    response_model=Kitchen,
    response_description="The newest version of the file, byte for byte as it was sent.",
    responses=documented(404),
)
def get_kitchen(slug: Slug, services: ServicesDep) -> Response:
    """The file. Amounts are a number and a unit; clock times are on the kitchen's wall."""
    return Response(kitchen_file(services.database, slug), media_type="application/json")


@router.put(
    "/{slug}",
    summary="Store a kitchen's next version",
    response_description="The kitchen; its newest version was this file already.",
    responses={
        201: {"model": KitchenSummary, "description": "A version was added."},
        **documented(403, 404, 415, 422),
    },
    openapi_extra=_BODY,
)
def put_kitchen(
    slug: Slug, body: JsonBytes, services: ServicesDep, response: Response
) -> KitchenSummary:
    """Check a kitchen file and store it as the next version of a kitchen, or as a new one.

    Versions are never changed: plans made from the one before keep it.
    """
    stored = store_kitchen(services.database, body, actor=ACTOR, now=services.now, slug=slug)
    if stored.added:
        response.status_code = 201
    return stored.kitchen
