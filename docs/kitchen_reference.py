"""Write what the kitchen file's models say into its reference: the JSON Schema and the tables.

Run as ``python docs/kitchen_reference.py`` after a change of the models; a test fails until then.
"""

import json
import re
from pathlib import Path
from typing import Any

from planner.kitchen.schema import kitchen_schema, schema_text
from planner.units import UNIT_NAMES, standard_unit

HERE = Path(__file__).parent
SCHEMA_FILE = HERE / "kitchen.schema.json"
REFERENCE_FILE = HERE / "kitchen-file.md"

_GENERATED = re.compile(
    r"(<!-- (?P<kind>fields|words|units)(?: (?P<name>\w+))? -->\n).*?(<!-- end -->)", re.DOTALL
)
_CLOCK = "^[0-2][0-9]:[0-5][0-9]$"
_HOMES = {
    "KitchenUnit": "units",
    "Ingredient": "ingredients",
    "Cut": "cuts",
    "Operation": "operations",
    "Component": "components",
    "Dish": "dishes",
    "Service": "services",
    "Station": "stations",
    "Cook": "cooks",
}
"""Headings that read better in the plural."""
_ID = "^[a-z0-9][a-z0-9_]*$"


def filled(reference: str) -> str:
    """``reference`` with the text between each pair of marks made anew."""
    schema = kitchen_schema()
    definitions = {**schema["$defs"], "Kitchen": schema}

    def block(match: re.Match[str]) -> str:
        if match["kind"] == "units":
            made = units_table()
        elif match["kind"] == "words":
            made = ", ".join(f"`{word}`" for word in definitions[match["name"]]["enum"]) + "\n"
        else:
            made = fields_table(definitions, match["name"])
        return f"{match[1]}{made}{match[4]}"

    return _GENERATED.sub(block, reference)


def fields_table(definitions: dict[str, Any], name: str) -> str:
    """Every field of one kind of object: what to write, whether it may be left out, its meaning."""
    part = definitions[name]
    required = part.get("required", ())
    lines = ["| field | write | left out | meaning |", "| --- | --- | --- | --- |"]
    for field, told in part["properties"].items():
        inner = _not_null(told)
        left_out = "required" if field in required else _default(told)
        meaning = told.get("description") or _meaning(definitions, inner)
        lines.append(f"| `{field}` | {_kind(definitions, inner)} | {left_out} | {meaning} |")
    return "\n".join(lines).replace("``", "`") + "\n"


def units_table() -> str:
    """The closed list of units with their size."""
    lines = ["| unit | is |", "| --- | --- |"]
    for name in UNIT_NAMES:
        unit = standard_unit(name)
        if unit is not None:
            base = "g" if unit.dimension == "mass" else "ml"
            lines.append(f"| `{name}` | {unit.size:.8g} {base} |")
    return "\n".join(lines) + "\n"


def _not_null(told: dict[str, Any]) -> dict[str, Any]:
    options = [option for option in told.get("anyOf", ()) if option.get("type") != "null"]
    return options[0] if options else told


def _meaning(definitions: dict[str, Any], told: dict[str, Any]) -> str:
    """The description of what the field holds, where the field has none of its own."""
    held = told.get("items", told)
    if "$ref" in held:
        return _first_line(definitions[_name(held)].get("description", ""))
    return str(told.get("description", ""))


def _first_line(text: str) -> str:
    return " ".join(text.split("\n\n", maxsplit=1)[0].split())


def _name(told: dict[str, Any]) -> str:
    return str(told["$ref"]).rsplit("/", 1)[-1]


def _kind(definitions: dict[str, Any], told: dict[str, Any]) -> str:
    if "$ref" in told:
        name = _name(told)
        words = "word of " if "enum" in definitions[name] else ""
        return f"{words}[{name}](#{_HOMES.get(name, name.lower())})"
    if "const" in told:
        return f"`{json.dumps(told['const'])}`"
    if told["type"] == "array":
        return f"list of {_kind(definitions, told['items'])}"
    if told["type"] in ("integer", "number"):
        return ("whole number" if told["type"] == "integer" else "number") + _range(told)
    return _text(told) if told["type"] == "string" else "`true` or `false`"


def _text(told: dict[str, Any]) -> str:
    if told.get("format") == "date":
        return "date"
    known = {_CLOCK: "time", _ID: "id"}
    pattern = told.get("pattern", "")
    if pattern in known:
        return known[pattern]
    return "amount" if r"\s*[^\s0-9]" in pattern else "text"


def _range(told: dict[str, Any]) -> str:
    low = told.get("minimum", told.get("exclusiveMinimum"))
    high = told.get("maximum", told.get("exclusiveMaximum"))
    if low is None or high is None:
        return "" if low is None else f", {low:g} or more"
    above = "above " if "exclusiveMinimum" in told else ""
    below = "below " if "exclusiveMaximum" in told else ""
    return f", {above}{low:g} to {below}{high:g}"


def _default(told: dict[str, Any]) -> str:
    value = told.get("default")
    if value in (None, "", []):
        return "none"
    if isinstance(value, dict):
        return "as there"
    return f"`{value}`" if isinstance(value, str) else json.dumps(value)


def main() -> None:
    """Write both files."""
    SCHEMA_FILE.write_text(schema_text(), encoding="utf-8")
    REFERENCE_FILE.write_text(filled(REFERENCE_FILE.read_text(encoding="utf-8")), encoding="utf-8")


if __name__ == "__main__":
    main()
