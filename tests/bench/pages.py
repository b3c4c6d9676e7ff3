"""How long the server takes to make each of its pages, all of them.

``python -m tests.bench.pages --out docs/live-pages.md`` plans the bundled kitchen with invented
past days and asks for every page in this process, without a network. Nothing here is run by the
tests.
"""

import argparse
import asyncio
import datetime as dt
import importlib
import os
import pkgutil
import re
import statistics
import subprocess
import sys
import tempfile
import time
import uuid
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, get_type_hints

import httpx
from fastapi import APIRouter, FastAPI
from fastapi.responses import HTMLResponse
from fastapi.routing import APIRoute

import service.api
from service.app import create_app
from service.commands.serve import keep_what_is_loaded
from service.settings import Settings
from tests.bench.page import filled

PAST, REQUESTS, WARM = 13, 40, 3
"""Invented past days; requests of a page that count, and before them those that do not."""
BUDGET = 50
"""Milliseconds at p95."""


@dataclass(slots=True)
class Page:
    """A page that is asked for; ``seconds`` of wall time and ``work`` of this process."""

    route: str
    path: str
    first: float = 0.0
    size: int = 0
    seconds: list[float] = field(default_factory=list)
    work: list[float] = field(default_factory=list)


def main(arguments: Sequence[str] | None = None) -> int:
    """Measure, print the table, and write it into a page that has its marks."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--out", type=Path, help="page whose table is written anew")
    parser.add_argument("--data", type=Path, help="data folder, made by an earlier run with it")
    parser.add_argument("--only", default="", help="routes with this in them alone")
    parser.add_argument("--language", default="en", help="in which pages are read")
    parser.add_argument("--requests", type=int, default=REQUESTS, help="of each page that count")
    options = parser.parse_args(arguments)
    with tempfile.TemporaryDirectory() as folder:
        data = options.data or Path(folder)
        if not (data / "prepwright.sqlite3").exists():
            _made(data)
        pages = asyncio.run(_measured(data, options))
    table = _table(pages)
    sys.stdout.write(table)
    if options.out:
        text = options.out.read_text(encoding="utf-8")
        options.out.write_text(filled(text, {"pages": table}), encoding="utf-8")
    return 0


def _made(data: Path) -> None:
    environment = {**os.environ, "PREPWRIGHT_DATA_DIR": str(data)}
    command = [sys.executable, "-m", "service.cli", "demo", "--once", "--seconds", "1"]
    command += ["--with-past", str(PAST)]
    # Ends with another code than 0 where something is late.
    subprocess.run(command, env=environment, stdout=subprocess.DEVNULL, check=False)  # noqa: S603 - our own


async def _measured(data: Path, options: argparse.Namespace) -> list[Page]:
    app = create_app(Settings(data_dir=data, host="0.0.0.0"))  # noqa: S104 - nothing is bound
    async with app.router.lifespan_context(app), _client(app, options.language) as client:
        day = await _day(client)
        pages = [Page(route, _address(route, day)) for route in _routes() if options.only in route]
        keep_what_is_loaded()
        for page in pages:
            await _ask(client, page, day, options.requests)
            sys.stderr.write(f"{_row(page)}\n")
    return pages


def _client(app: FastAPI, language: str) -> httpx.AsyncClient:
    return httpx.AsyncClient(
        transport=httpx.ASGITransport(app),
        base_url="http://localhost",
        headers={"Accept-Encoding": "gzip", "Accept-Language": language},
        timeout=60,
    )


@dataclass(frozen=True, slots=True)
class _Day:
    """What stands in the places of the routes' addresses, and what is ticked meanwhile."""

    places: Mapping[str, str]
    moved: str
    floor: str
    tasks: Sequence[tuple[str, str]]


async def _day(client: httpx.AsyncClient) -> _Day:
    """Release the plan, move a batch of it, and keep a yield test."""
    plans = (await client.get("/api/v1/plans")).json()
    plan = next(one for one in reversed(plans) if one["created_by"] == "demo")
    release = await client.post(f"/api/v1/plans/{plan['id']}/release")
    release.raise_for_status()
    sheet = (await client.get(f"/api/v1/plans/{plan['id']}/sheet")).json()
    longest = max(sheet["cooks"], key=lambda cook: len(cook["batches"]))
    slug, date = plan["kitchen"], plan["date"]
    today = dt.date.fromisoformat(date)
    return _Day(
        places={
            "plan_id": plan["id"],
            "cook_id": longest["cook"],
            "cook": longest["cook"],
            "item": sheet["pulls"][0]["ingredient"],
            "slug": slug,
            "date": date,
            "first": str(today - dt.timedelta(PAST)),
            "last": str(today - dt.timedelta(1)),
            "number": await _tested(client, slug),
        },
        moved=await _moved(client, plan["id"], longest, plans),
        floor=f"/floor/{slug}/{date}",
        tasks=[
            (cook["cook"], task["id"])
            for cook in sheet["cooks"]
            for batch in cook["batches"]
            for task in batch["tasks"]
        ],
    )


async def _tested(client: httpx.AsyncClient, slug: str) -> str:
    """Number of a kept yield test of the first food that can be tested."""
    page = (await client.get(f"/kitchens/{slug}/bench")).text
    found = re.search(r'<option value="([^"]+/[^"]+)"', page)
    of = found[1] if found else ""
    form = {"of": of, "unit": "g", "division": "1", "gross": "4000", "u0": "3300", "t0": "700"}
    form |= {"sent": str(uuid.UUID(int=1)), "then": "count"}
    answer = await client.post(f"/kitchens/{slug}/bench", data=form)
    if answer.status_code != 303:
        raise RuntimeError(answer.text)
    return answer.headers["location"].rpartition("/")[2]


async def _moved(
    client: httpx.AsyncClient,
    plan: str,
    cook: Mapping[str, Any],
    plans: Sequence[Mapping[str, Any]],
) -> str:
    """Key of a plan with the cook's first batch held; made unless there is one."""
    for one in plans:
        if one["moved_from"] == plan and one["state"] == "done":
            return str(one["id"])
    batch = {"batch": cook["batches"][0]["number"], "cook": cook["cook"]}
    wish = {"batches": [batch], "seconds": 0}
    made = (await client.post(f"/api/v1/plans/{plan}/moves", json=wish)).raise_for_status().json()
    for _ in range(600):
        state = (await client.get(f"/api/v1/plans/{made['id']}")).json()
        if state["state"] in ("done", "failed"):
            break
        await asyncio.sleep(0.2)
    if state["state"] != "done":
        raise RuntimeError(state["error"])
    return str(made["id"])


def _routes() -> list[str]:
    """Paths of all routes that answer with a page, as the service declares them."""
    found = []
    for module in pkgutil.iter_modules(service.api.__path__):
        routers = vars(importlib.import_module(f"service.api.{module.name}")).values()
        for router in {id(one): one for one in routers if isinstance(one, APIRouter)}.values():
            found += [
                route.path
                for route in router.routes
                if isinstance(route, APIRoute)
                and "GET" in (route.methods or ())
                and get_type_hints(route.endpoint).get("return") is HTMLResponse
            ]
    return sorted(set(found))


def _address(route: str, day: _Day) -> str:
    """A route with its places filled; raise KeyError where one has a place that is not known."""
    places = dict(day.places)
    if route.endswith("/moved"):
        places["plan_id"] = day.moved
    return route.format(**places)


async def _ask(client: httpx.AsyncClient, page: Page, day: _Day, requests: int) -> None:
    for turn in range(-WARM, requests):
        if page.route.startswith("/floor/"):
            await _tick(client, day)
        wall, work = time.perf_counter(), time.process_time()
        answer = await client.get(page.path)
        wall, work = time.perf_counter() - wall, time.process_time() - work
        if answer.status_code != 200:
            raise RuntimeError(f"{page.path}: {answer.status_code}: {answer.text}")
        if turn == -WARM:
            page.first = wall
        if turn >= 0:
            page.seconds.append(wall)
            page.work.append(work)
    page.size = answer.num_bytes_downloaded


async def _tick(client: httpx.AsyncClient, day: _Day) -> None:
    """Somebody says something, so that no page is asked for twice of the same floor."""
    number = uuid.uuid4()
    cook, task = day.tasks[number.int % len(day.tasks)]
    now = dt.datetime.now(dt.UTC).isoformat()
    tick = {"key": str(number), "release": 1, "act": "begun", "at": now}
    tick |= {"cook": cook, "tasks": [task]}
    body = {"device": "bench", "sent_at": now, "ticks": [tick]}
    answer = await client.post(f"/api/v1{day.floor}/ticks", json=body)
    if answer.json()["received"][0]["outcome"] != "kept":
        raise RuntimeError(answer.text)


def _table(pages: Sequence[Page]) -> str:
    over = [page.route for page in pages if _p95(page.work) * 1000 > BUDGET]
    lines = [
        f"Budget: {BUDGET} ms at p95. Above it by processor time: "
        f"{', '.join(f'`{route}`' for route in over) or 'none'}. "
        f"{len(pages[0].seconds)} requests each; load average of the machine "
        f"{os.getloadavg()[1]:.1f} on {os.cpu_count()} cores.",
        "",
        "| page | first, ms | median, ms | p95, ms | p95 of processor time, ms | kB |",
        "| --- | --- | --- | --- | --- | --- |",
        *map(_row, pages),
    ]
    return "\n".join(lines) + "\n"


def _row(page: Page) -> str:
    median, p95, work = (
        f"{seconds * 1000:.0f}"
        for seconds in (statistics.median(page.seconds), _p95(page.seconds), _p95(page.work))
    )
    return (
        f"| `{page.route}` | {page.first * 1000:.0f} | {median} | {p95} | {work} "
        f"| {page.size / 1000:.0f} |"
    )


def _p95(values: Sequence[float]) -> float:
    return statistics.quantiles(values, n=20)[-1]


if __name__ == "__main__":
    sys.exit(main())
