"""The API's description of itself: what the routes alone do not say."""

from importlib.metadata import version
from typing import Any

from fastapi import FastAPI
from fastapi.openapi.utils import get_openapi
from pydantic import ConfigDict, TypeAdapter

from planner.sheet.types import KitchenSheet
from service.api.problems import Problem
from service.floor_values import TickSent

TITLE = "Prepwright"
SUMMARY = "From forecast covers and recipes to a timed prep sheet for every cook."
DESCRIPTION = """\
Send a kitchen file, ask for a plan of one day, follow it, read its sheet.

- Masses are grams, volumes millilitres, temperatures degrees Celsius, wages per hour.
- Times of a plan are whole minutes after midnight of the planned day; a later day's run past 1440.
- Moments (`created_at` and the like) are UTC, RFC 3339.
- Every error is `application/problem+json` (RFC 9457) with all that is wrong in `errors`.
- There is no sign-in: the server answers this machine only unless it is told otherwise.
"""
TAGS = [
    {"name": "kitchens", "description": "Kitchen files, kept in versions that never change."},
    {"name": "plans", "description": "Planning runs, and the sheets they make."},
    {"name": "sales", "description": "What was sold: the history that forecasts are made from."},
    {"name": "floor", "description": "Plans given to the cooks, and what they say of them."},
]
OPENAPI_PATH = "/api/v1/openapi.json"
_REF = "#/components/schemas/{model}"


def describe(app: FastAPI) -> None:
    """Let ``app`` describe its problem details along with its routes."""

    def openapi() -> dict[str, Any]:
        if app.openapi_schema is None:
            schema = get_openapi(
                title=TITLE,
                version=version("prepwright"),
                summary=SUMMARY,
                description=DESCRIPTION,
                tags=TAGS,
                routes=app.routes,
                separate_input_output_schemas=False,
            )
            _put_shapes_in(schema)
            _describe_properties(schema["components"]["schemas"])
            app.openapi_schema = schema
        return app.openapi_schema

    app.openapi = openapi  # type: ignore[method-assign]


def _put_shapes_in(schema: dict[str, Any]) -> None:
    """Add shapes that no route names, and take out the framework's own shape of bad values."""
    parts = schema["components"]["schemas"]
    for name in ("HTTPValidationError", "ValidationError"):
        parts.pop(name, None)
    for methods in schema["paths"].values():
        for operation in methods.values():
            answers = operation["responses"]
            if "application/json" in answers.get("422", {}).get("content", {}):
                del answers["422"]
    problem = Problem.model_json_schema(ref_template=_REF)
    parts.update(problem.pop("$defs"))
    parts["Problem"] = problem
    tick = TickSent.model_json_schema(ref_template=_REF)
    parts.update(tick.pop("$defs"))
    parts["TickSent"] = tick


def _describe_properties(parts: dict[str, Any]) -> None:
    """Give every property what its field says, or else what the thing it holds says of itself."""
    # Values are dataclasses, whose fields are described by the text below them.
    values: TypeAdapter[Any] = TypeAdapter(
        KitchenSheet | None, config=ConfigDict(use_attribute_docstrings=True)
    )
    parts.update(values.json_schema(ref_template=_REF)["$defs"])
    for part in parts.values():
        for told in part.get("properties", {}).values():
            if "description" not in told and (inherited := _of_what_it_holds(told, parts)):
                told["description"] = inherited


def _of_what_it_holds(told: dict[str, Any], parts: dict[str, Any]) -> str:
    """The first paragraph about the thing, or about each one in a list."""
    options = [option for option in told.get("anyOf", ()) if option.get("type") != "null"]
    held = options[0] if options else told
    held = held.get("items", held)
    if "$ref" in held:
        held = parts[held["$ref"].rsplit("/", 1)[-1]]
    return " ".join(held.get("description", "").split("\n\n", maxsplit=1)[0].split())
