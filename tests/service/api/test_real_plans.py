"""The API with the real planner, on the small bundled kitchen."""

from pathlib import Path

import jsonschema

import seed_data
from planner.kitchen.reading import read_kitchen
from planner.plan_file.schema import plan_schema
from service.planning import make_plan
from tests.service.api.conftest import MakeClient, ended, send_kitchen, wait_for

SMALL = Path(seed_data.__file__).parent / "small.json"
WISH = {
    "date": read_kitchen(SMALL.read_bytes()).as_of.isoformat(),
    "deterministic_limit": 0.3,
}


def test_the_api_plans_serves_and_explains(make_client: MakeClient) -> None:
    client = make_client(make_plan)
    address = send_kitchen(client, SMALL.read_bytes()).headers["Location"]
    plan = client.post(f"{address}/plans", json=WISH).headers["Location"]
    status = wait_for(client, plan, ended)
    assert status["state"] == "done", status["error"]
    jsonschema.validate(client.get(f"{plan}/document").json(), plan_schema())
    sheet = client.get(f"{plan}/sheet").json()
    pull = sheet["pulls"][0]["ingredient"]
    trace = client.get(f"{plan}/why/{pull}").json()
    assert trace["children"]
    page = plan.removeprefix("/api/v1")
    for tail in (
        "",
        "/wall",
        "/why",
        f"/why/{pull}",
        *(f"/cooks/{cook['cook']}" for cook in sheet["cooks"]),
    ):
        assert client.get(f"{page}{tail}").status_code == 200, tail


def test_answers_fit_the_shapes_that_the_api_describes(make_client: MakeClient) -> None:
    client = make_client(make_plan)
    address = send_kitchen(client, SMALL.read_bytes()).headers["Location"]
    plan = client.post(f"{address}/plans", json=WISH).headers["Location"]
    wait_for(client, plan, ended)
    schema = client.get("/api/v1/openapi.json").json()
    item = client.get(f"{plan}/sheet").json()["pulls"][0]["ingredient"]
    for path, name in (
        (address, "Kitchen"),
        (plan, "PlanStatus"),
        (f"{plan}/document", "PlanDocument"),
        (f"{plan}/sheet", "KitchenSheet"),
        (f"{plan}/why/{item}", "PlanTrace"),
    ):
        described = {"$ref": f"#/components/schemas/{name}", "components": schema["components"]}
        jsonschema.validate(client.get(path).json(), described)
