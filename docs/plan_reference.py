"""Write what the plan file's models say into its reference: the JSON Schema and the tables.

Run as ``python docs/plan_reference.py`` after a change of the models; a test fails until then.
"""

import re
from pathlib import Path
from typing import Any

from planner.plan_file.schema import plan_schema, schema_text

HERE = Path(__file__).parent
SCHEMA_FILE = HERE / "plan.schema.json"
REFERENCE_FILE = HERE / "plan-file.md"

_GENERATED = re.compile(r"(<!-- fields (?P<name>\w+) -->\n).*?(<!-- end -->)", re.DOTALL)


def filled(reference: str) -> str:
    """``reference`` with the table between each pair of marks made anew."""
    schema = plan_schema()
    definitions = {**schema["$defs"], "PlanDocument": schema}
    return _GENERATED.sub(
        lambda match: f"{match[1]}{fields_table(definitions, match['name'])}{match[3]}", reference
    )


def fields_table(definitions: dict[str, Any], name: str) -> str:
    """Every field of one part of the file: its kind and what it says."""
    lines = ["| field | kind | what it says |", "| --- | --- | --- |"]
    lines += [
        f"| `{field}` | {_kind(definitions, told)} | {meaning(definitions, told)} |"
        for field, told in definitions[name]["properties"].items()
    ]
    return "\n".join(lines) + "\n"


def meaning(definitions: dict[str, Any], told: dict[str, Any]) -> str:
    """A field's description; where the schema leaves it to the part it holds, that part's."""
    if "description" in told:
        return str(told["description"])
    return str(definitions[_name(told)].get("description", "")) if "$ref" in told else ""


def _name(told: dict[str, Any]) -> str:
    return str(told["$ref"]).rsplit("/", 1)[-1]


def _kind(definitions: dict[str, Any], told: dict[str, Any]) -> str:
    if "$ref" in told:
        name = _name(told)
        words = definitions[name].get("enum")
        return ", ".join(f"`{word}`" for word in words) if words else f"[{name}](#{name.lower()})"
    if "anyOf" in told:
        return " or ".join(_kind(definitions, option) for option in told["anyOf"])
    if "const" in told:
        return f"`{told['const']}`"
    if told["type"] == "array":
        return f"list of {_kind(definitions, told['items'])}"
    if told["type"] == "object":
        return f"{_kind(definitions, told['additionalProperties'])} by name"
    return {
        "integer": "whole number",
        "boolean": "`true` or `false`",
        "string": "date" if told.get("format") == "date" else "text",
    }.get(told["type"], told["type"])


def main() -> None:
    """Write both files."""
    SCHEMA_FILE.write_text(schema_text(), encoding="utf-8")
    REFERENCE_FILE.write_text(filled(REFERENCE_FILE.read_text(encoding="utf-8")), encoding="utf-8")


if __name__ == "__main__":
    main()
