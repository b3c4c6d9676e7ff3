"""The reference of the kitchen file says what the models say, and its fragments are true."""

import importlib.util
import json
import re
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest

from planner.kitchen.cuts import STARTER_CUTS
from planner.kitchen.schema import kitchen_schema, schema_text
from tests.kitchen.reported import reported

DOCS = Path(__file__).parents[2] / "docs"
REFERENCE = (DOCS / "kitchen-file.md").read_text(encoding="utf-8")
MAKE_ANEW = "run: python docs/kitchen_reference.py"


@pytest.fixture(scope="module")
def generator() -> ModuleType:
    spec = importlib.util.spec_from_file_location(
        "kitchen_reference", DOCS / "kitchen_reference.py"
    )
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def test_the_published_schema_is_up_to_date() -> None:
    assert (DOCS / "kitchen.schema.json").read_text(encoding="utf-8") == schema_text(), MAKE_ANEW


def test_the_tables_are_up_to_date(generator: ModuleType) -> None:
    assert generator.filled(REFERENCE) == REFERENCE, MAKE_ANEW


def test_every_kind_of_object_and_word_has_its_table() -> None:
    shown = set(re.findall(r"<!-- (?:fields|words) (\w+) -->", REFERENCE))
    assert shown == {"Kitchen", *kitchen_schema()["$defs"]}


def test_links_inside_the_page_lead_to_a_heading() -> None:
    headings = re.findall(r"^#+ (.+)$", REFERENCE, re.MULTILINE)
    anchors = {heading.lower().replace(" ", "-") for heading in headings}
    assert set(re.findall(r"\]\(#([^)]+)\)", REFERENCE)) <= anchors


def test_the_starter_cuts_are_all_named() -> None:
    assert all(f"`{cut.id}`" in REFERENCE for cut in STARTER_CUTS)


def test_the_fragments_together_are_a_kitchen_without_errors() -> None:
    kitchen: dict[str, Any] = {}
    for fragment in re.findall(r"```json\n(.*?)```", REFERENCE, re.DOTALL):
        for name, value in json.loads(fragment).items():
            assert name not in kitchen, name
            kitchen[name] = value
    assert reported(kitchen) == ()
    assert set(kitchen) == set(kitchen_schema()["properties"])
