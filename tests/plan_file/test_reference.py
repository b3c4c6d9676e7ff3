import importlib.util
import json
import re
import subprocess
import sys
from pathlib import Path

import jsonschema
import pytest

from planner.plan_file import plan_document
from planner.plan_file.schema import plan_schema, schema_text
from tests.kitchens.plans import planned_kitchen, tiny_plan

DOCS = Path(__file__).parents[2] / "docs"
REMEDY = "run python docs/plan_reference.py"


def _reference():
    spec = importlib.util.spec_from_file_location("plan_reference", DOCS / "plan_reference.py")
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def test_the_published_schema_is_the_models_own():
    assert (DOCS / "plan.schema.json").read_text(encoding="utf-8") == schema_text(), REMEDY


def test_the_schema_is_a_valid_one():
    jsonschema.Draft202012Validator.check_schema(plan_schema())


def test_the_reference_shows_the_fields_as_they_are():
    text = (DOCS / "plan-file.md").read_text(encoding="utf-8")
    assert _reference().filled(text) == text, REMEDY


def test_every_part_of_the_file_has_its_table():
    text = (DOCS / "plan-file.md").read_text(encoding="utf-8")
    parts = {name for name, part in plan_schema()["$defs"].items() if "properties" in part}
    assert parts | {"PlanDocument"} == set(re.findall(r"<!-- fields (\w+) -->", text))


def test_every_field_says_what_it_is():
    schema = plan_schema()
    definitions = {**schema["$defs"], "PlanDocument": schema}
    silent = [
        f"{name}.{field}"
        for name, part in definitions.items()
        for field, told in part.get("properties", {}).items()
        if not _reference().meaning(definitions, told)
    ]
    assert silent == []


def example_program() -> str:
    text = (DOCS / "plan-file.md").read_text(encoding="utf-8")
    (program,) = re.findall(r"```python\n(.*?)```", text, re.DOTALL)
    return program


def _run_example(tmp_path, document) -> subprocess.CompletedProcess[str]:
    plan = tmp_path / "plan.json"
    plan.write_text(json.dumps(document), encoding="utf-8")
    # -I: nothing but the standard library, as a reader of the page would have it.
    return subprocess.run(  # noqa: S603
        [sys.executable, "-I", "-c", example_program(), str(plan)],
        capture_output=True,
        text=True,
        timeout=30,
        check=False,
    )


@pytest.fixture
def document():
    return json.loads(plan_document(planned_kitchen(), tiny_plan()).model_dump_json())


def test_the_example_program_is_short_and_finds_a_good_plan_good(tmp_path, document):
    assert len(example_program().splitlines()) <= 30
    result = _run_example(tmp_path, document)
    assert (result.returncode, result.stderr) == (0, "")
    assert result.stdout == "no overlaps; 72 min of labor, as the file says\n"


def test_the_example_program_finds_a_cook_in_two_places(tmp_path, document):
    dice = document["lots"][2]["tasks"][0]["done"]
    dice["lead_start"]["minutes"] = dice["start"]["minutes"] = 640
    dice["end"]["minutes"] = 641
    result = _run_example(tmp_path, document)
    assert result.returncode == 1
    assert "ben: dice-onion-1 and dice-onion-2 overlap" in result.stdout


def test_the_example_program_finds_work_in_a_break(tmp_path, document):
    document["rests"]["ana"][0]["minutes"] = 652
    result = _run_example(tmp_path, document)
    assert "ana: simmer-stock-1 and break overlap" in result.stdout


def test_the_example_program_finds_labor_that_does_not_add_up(tmp_path, document):
    document["labor"]["total"] = 60
    result = _run_example(tmp_path, document)
    assert (result.returncode, result.stdout) == (1, "labor adds up to 72 min, not 60\n")
