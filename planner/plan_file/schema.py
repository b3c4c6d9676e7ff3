"""The plan file's JSON Schema (draft 2020-12), made from the models that write it."""

import json
from typing import Any

from planner.plan_file.document import PlanDocument

_DIALECT = "https://json-schema.org/draft/2020-12/schema"


def plan_schema() -> dict[str, Any]:
    """Return the schema as JSON values."""
    return {"$schema": _DIALECT, **PlanDocument.model_json_schema(mode="serialization")}


def schema_text() -> str:
    """The schema as it is published, with a final line break."""
    return json.dumps(plan_schema(), indent=2, ensure_ascii=False) + "\n"
