"""One morning that is planned, released and begun, for tests that only look at it."""

import datetime as dt
import time
from collections.abc import Iterator
from dataclasses import dataclass
from importlib.resources import files

import httpx
import pytest

from planner.kitchen.reading import read_kitchen
from service.commands.invented_sales import invented_sales
from tests.browser.morning.kitchen_server import DATE, KitchenServer, serving


@dataclass(frozen=True)
class Morning:
    """Where everything of the day is."""

    kitchen: KitchenServer
    plan: str
    cook: str

    @property
    def pages(self) -> dict[str, str]:
        """Addresses of every page a person can come to, by name."""
        plan, floor = f"/plans/{self.plan}", self.kitchen.floor
        home = f"/kitchens/{self.kitchen.slug}"
        return {
            "index": "/",
            "enrol": "/enrol",
            "day": self.kitchen.day,
            "build": f"{plan}/build",
            "release": f"{plan}/release",
            "compare": f"{plan}/compare",
            "sheets": plan,
            "sheet": f"{plan}/cooks/{self.cook}",
            "chart": f"{plan}/wall",
            "whys": f"{plan}/why",
            "floor": floor,
            "live": f"{floor}/cooks/{self.cook}",
            "wall": f"{floor}/wall",
            "happened": f"{floor}/happened",
            "review": f"{floor}/review",
            "moving": f"{plan}/moving",
            "print": f"{plan}/print",
            "pulls": f"{plan}/print/pull-list",
            "labels": f"{plan}/print/labels",
            "labor": f"{home}/labor/{DATE}/{DATE}",
            "week": f"{home}/labor/week/{DATE}",
            "bench": f"{home}/bench",
            "yields": f"{home}/yields",
            "rates": f"{home}/rates",
            "costs": f"{home}/costs?week={DATE}",
            "sales": f"{home}/sales",
            "missing": "/nowhere",
        }


@pytest.fixture(scope="package")
def morning(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Morning]:
    """A plan that is released, with its first batch done and the next begun."""
    with serving(tmp_path_factory.mktemp("morning")) as kitchen:
        yield _begun(kitchen)


def sales_lines(lost: int = 5) -> list[dict[str, str | int]]:
    """Invented sales before the day, of which a dinner is missing."""
    bundled = read_kitchen(files("seed_data").joinpath("demo.json").read_bytes())
    gap = DATE - dt.timedelta(lost)
    return [
        {"date": str(one.date), "service": one.service, "dish": one.dish, "count": one.count}
        for one in invented_sales(bundled, DATE)
        if (one.date, one.service) != (gap, "Dinner")
    ]


def _begun(kitchen: KitchenServer) -> Morning:
    with httpx.Client(base_url=kitchen.address, timeout=60) as client:
        client.post(
            f"/api/v1/kitchens/{kitchen.slug}/sales", json={"lines": sales_lines()}
        ).raise_for_status()
        asked = client.post(
            f"/api/v1/kitchens/{kitchen.slug}/plans", json={"date": str(DATE), "seconds": 1}
        )
        plan = asked.raise_for_status().json()["id"]
        end = time.monotonic() + 120
        while client.get(f"/api/v1/plans/{plan}").json()["state"] not in ("done", "failed"):
            assert time.monotonic() < end, "the plan is not made"
            time.sleep(0.2)
        client.post(f"/api/v1/plans/{plan}/release").raise_for_status()
        sheet = client.get(f"/api/v1/plans/{plan}/sheet").json()
        cook = max(sheet["cooks"], key=lambda one: len(one["batches"]))
        first, second = cook["batches"][:2]
        kitchen.wall.set(6, 30)
        now = kitchen.wall().isoformat()
        acts = [("begun", first), ("done", first), ("begun", second)]
        ticks = [
            {
                "key": f"00000000-0000-4000-8000-00000000000{at}",
                "release": 1,
                "act": act,
                "at": now,
                "cook": cook["cook"],
                "tasks": [task["id"] for task in batch["tasks"]],
            }
            for at, (act, batch) in enumerate(acts)
        ]
        client.post(
            f"/api/v1{kitchen.floor}/ticks",
            json={"device": "tests", "sent_at": now, "ticks": ticks},
        ).raise_for_status()
        return Morning(kitchen, plan, cook["cook"])
