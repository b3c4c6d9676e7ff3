"""How quick the floor's server is: phones that tick, listeners that are told, pages that are made.

``python -m tests.bench.floor --out docs/live-pages.md`` plans the bundled kitchen, serves it on
this machine, and measures from this program. Nothing here is run by the tests.
"""

import argparse
import asyncio
import datetime as dt
import json
import os
import re
import socket
import statistics
import subprocess
import sys
import tempfile
import time
import uuid
from collections.abc import Sequence
from pathlib import Path
from typing import Any

import httpx

_MARKED = re.compile(r"(<!-- floor -->\n).*?(<!-- end -->)", re.DOTALL)
PHONES, TICKS, EVERY = 40, 20, 1.0
"""Phones, ticks of each, and seconds between two of one phone."""
LISTENERS, PAGES = 100, 100


def main(arguments: Sequence[str] | None = None) -> int:
    """Measure, print the table, and write it into a page that has its marks."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--out", type=Path, help="page whose table is written anew")
    options = parser.parse_args(arguments)
    with tempfile.TemporaryDirectory() as folder:
        rows = _measured(Path(folder))
    lines = ["| what | median | p95 | budget |", "| --- | --- | --- | --- |", *rows]
    sys.stdout.write("\n".join(lines) + "\n")
    if options.out:
        text = options.out.read_text(encoding="utf-8")
        table = "\n".join(lines)
        options.out.write_text(
            _MARKED.sub(lambda found: f"{found[1]}{table}\n{found[2]}", text), encoding="utf-8"
        )
    return 0


def _measured(folder: Path) -> list[str]:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port = probe.getsockname()[1]
    environment = {
        **os.environ,
        "PREPWRIGHT_DATA_DIR": str(folder),
        "PREPWRIGHT_PORT": str(port),
    }
    command = [sys.executable, "-m", "service.cli", "demo", "--seconds", "1"]
    with subprocess.Popen(command, env=environment, stdout=subprocess.DEVNULL) as server:  # noqa: S603 - our own
        try:
            return asyncio.run(_with(f"http://127.0.0.1:{port}"))
        finally:
            server.terminate()


async def _with(address: str) -> list[str]:
    limits = httpx.Limits(max_connections=None)
    async with httpx.AsyncClient(base_url=address, timeout=30, limits=limits) as client:
        plan = await _ready(client)
        release = (await client.post(f"/api/v1/plans/{plan}/release")).json()
        floor = f"/floor/{release['kitchen']}/{release['date']}"
        sheet = (await client.get(f"/api/v1/plans/{plan}/sheet")).json()
        told: list[float] = []
        sent: dict[str, float] = {}
        listeners = [
            asyncio.create_task(_listen(client, floor, told, sent)) for _ in range(LISTENERS)
        ]
        await asyncio.sleep(2)
        ticks = await _tick(client, floor, sheet, sent)
        await asyncio.sleep(2)
        for listener in listeners:
            listener.cancel()
        longest = max(sheet["cooks"], key=lambda cook: len(cook["batches"]))["cook"]
        pages = {
            "a cook's page": f"{floor}/cooks/{longest}",
            "the wall": f"{floor}/wall",
            "the manager's page": f"{floor}/review",
        }
        rows = [
            _row(
                f"tick, there and back, {PHONES} phones, one tick a second each, "
                f"{LISTENERS} listeners",
                ticks,
                "30 ms",
            ),
            _row(f"a listener is told of a change, {LISTENERS} of them", told, ""),
        ]
        for name, path in pages.items():
            rows.append(_row(f"{name}, request to answer", await _get(client, path), "50 ms"))
        return rows


async def _ready(client: httpx.AsyncClient) -> str:
    for _ in range(600):
        try:
            plans = (await client.get("/api/v1/plans")).json()
        except httpx.TransportError:
            plans = []
        if plans and plans[0]["state"] == "done":
            return str(plans[0]["id"])
        await asyncio.sleep(0.5)
    raise TimeoutError("the demo made no plan")


async def _listen(
    client: httpx.AsyncClient, floor: str, told: list[float], sent: dict[str, float]
) -> None:
    async with client.stream("GET", f"{floor}/stream", timeout=None) as stream:
        async for line in stream.aiter_lines():
            if line.startswith("data: ") and "last" in sent:
                told.append(time.perf_counter() - sent["last"])


async def _tick(
    client: httpx.AsyncClient, floor: str, sheet: dict[str, Any], sent: dict[str, float]
) -> list[float]:
    work = [
        (cook["cook"], task["id"])
        for cook in sheet["cooks"]
        for batch in cook["batches"]
        for task in batch["tasks"]
    ]
    took: list[float] = []

    async def phone(number: int) -> None:
        await asyncio.sleep(EVERY * number / PHONES)
        for turn in range(TICKS):
            cook, task = work[(number * TICKS + turn) % len(work)]
            now = dt.datetime.now(dt.UTC).isoformat()
            tick = {
                "key": str(uuid.uuid4()),
                "release": 1,
                "act": ("begun", "done")[turn % 2],
                "at": now,
                "cook": cook,
                "tasks": [task],
            }
            body = {"device": f"phone-{number}", "sent_at": now, "ticks": [tick]}
            began = sent["last"] = time.perf_counter()
            answer = await client.post(f"/api/v1{floor}/ticks", json=body)
            took.append(time.perf_counter() - began)
            if answer.json()["received"][0]["outcome"] != "kept":
                raise RuntimeError(json.dumps(answer.json()))
            await asyncio.sleep(max(0.0, EVERY - took[-1]))

    await asyncio.gather(*(phone(number) for number in range(PHONES)))
    return took


async def _get(client: httpx.AsyncClient, path: str) -> list[float]:
    took = []
    for _ in range(PAGES):
        began = time.perf_counter()
        (await client.get(path)).raise_for_status()
        took.append(time.perf_counter() - began)
    return took


def _row(what: str, seconds: Sequence[float], budget: str) -> str:
    if len(seconds) < 2:
        return f"| {what} | not measured | not measured | {budget} |"
    p95 = statistics.quantiles(seconds, n=20)[-1]
    return (
        f"| {what} | {statistics.median(seconds) * 1000:.0f} ms | {p95 * 1000:.0f} ms | {budget} |"
    )


if __name__ == "__main__":
    sys.exit(main())
