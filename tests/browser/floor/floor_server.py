"""A kitchen's floor with nothing behind it: the live pages, ticks kept in memory, the stream.

It stands for the service in tests of what a browser does. Time stands still at ``now``.
"""

import asyncio
import datetime as dt
import socket
import threading
import time
from collections.abc import AsyncIterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import uvicorn
from starlette.applications import Starlette
from starlette.requests import Request
from starlette.responses import (
    FileResponse,
    HTMLResponse,
    JSONResponse,
    Response,
    StreamingResponse,
)
from starlette.routing import Mount, Route
from starlette.staticfiles import StaticFiles

import web
from planner.floor.state import Floor, floor_of
from planner.floor.ticks import Act, Tick, Weighed, Weight
from planner.sheet.types import KitchenSheet
from service.api.headers import SECURITY_HEADERS
from web.assets import assets_version
from web.floor.pages import (
    FloorLinks,
    render_floor_cook,
    render_floor_home,
    render_floor_wall,
)
from web.presenters.preferences import Preferences

_STATIC = Path(web.__file__).parent / "static"


@dataclass
class FloorServer:
    """The server of one day. ``down`` answers 503, ``refuses`` refuses every tick."""

    sheet: KitchenSheet
    now: float
    ticks: list[Tick] = field(default_factory=list)
    posts: list[dict[str, Any]] = field(default_factory=list)
    release: int = 1
    down: bool = False
    refuses: bool = False
    address: str = ""

    def __post_init__(self) -> None:
        self.began = time.time()
        self.base = f"/floor/copper/{self.sheet.date}"

    @property
    def floor(self) -> Floor:
        """Where the floor stands."""
        return floor_of(self.ticks)

    def minutes(self, moment: float) -> float:
        """Minutes after midnight of a moment in seconds from the epoch."""
        return self.now + (moment - self.began) / 60

    def links(self) -> FloorLinks:
        """Addresses of the day as it stands."""
        return FloorLinks(
            base=self.base,
            ticks=f"/api/v1{self.base}/ticks",
            release=self.release,
            version=len(self.ticks),
            assets=f"/static/{assets_version()}",
            midnight=self.began - self.now * 60,
        )

    def says(self, act: Act) -> list[Tick]:
        """Ticks of one kind, in the order they came."""
        return [tick for tick in self.ticks if tick.act is act]

    def app(self) -> Starlette:
        """The application."""
        return Starlette(
            routes=[
                Route(self.base, self._home),
                Route(f"{self.base}/cooks/{{cook}}", self._cook),
                Route(f"{self.base}/wall", self._wall),
                Route(f"{self.base}/stream", self._stream),
                Route(f"/api/v1{self.base}/ticks", self._ticks, methods=["POST"]),
                Route("/floor/worker.js", self._worker),
                Mount("/static/{version}", StaticFiles(directory=_STATIC)),
            ]
        )

    async def _home(self, request: Request) -> Response:
        return self._page(
            request,
            lambda links, how: render_floor_home(self.sheet, self.floor, links, preferences=how),
        )

    async def _cook(self, request: Request) -> Response:
        cook = request.path_params["cook"]
        now = self.minutes(time.time())
        return self._page(
            request,
            lambda links, how: render_floor_cook(
                self.sheet, cook, self.floor, links, now=now, preferences=how
            ),
        )

    async def _wall(self, request: Request) -> Response:
        now = self.minutes(time.time())
        return self._page(
            request,
            lambda links, how: render_floor_wall(
                self.sheet, self.floor, links, now=now, preferences=how
            ),
        )

    def _page(self, request: Request, render: Any) -> Response:
        if self.down:
            return HTMLResponse("down", status_code=503)
        us = request.query_params.get("units") == "us"
        how = Preferences("us", 12) if us else Preferences()
        return HTMLResponse(render(self.links(), how), headers=_headers("no-cache, private"))

    async def _worker(self, request: Request) -> Response:
        del request
        return FileResponse(
            _STATIC / "worker.js",
            headers={"Service-Worker-Allowed": "/floor/", **_headers("no-cache")},
        )

    async def _stream(self, request: Request) -> Response:
        async def events() -> AsyncIterator[str]:
            told = None
            while not await request.is_disconnected():
                state = (self.release, len(self.ticks))
                if state != told:
                    told = state
                    now = dt.datetime.now(dt.UTC).isoformat()
                    yield (
                        f'event: floor\ndata: {{"release": {state[0]}, "version": {state[1]}, '
                        f'"now": "{now}"}}\n\n'
                    )
                await asyncio.sleep(0.05)

        if self.down:
            return Response(status_code=503)
        return StreamingResponse(events(), media_type="text/event-stream")

    async def _ticks(self, request: Request) -> Response:
        if self.down:
            return JSONResponse({"detail": "down"}, status_code=503)
        body = await request.json()
        self.posts.append(body)
        received = [self._take(raw) for raw in body["ticks"]]
        return JSONResponse(
            {"received": received, "release": self.release, "version": len(self.ticks)}
        )

    def _take(self, raw: dict[str, Any]) -> dict[str, Any]:
        if self.refuses:
            error = {
                "path": "tasks",
                "value": "",
                "message": "not on this sheet",
                "remedy": "Load the page again",
            }
            return {"key": raw["key"], "outcome": "refused", "error": error}
        known = any(tick.key == raw["key"] for tick in self.ticks)
        if not known:
            self.ticks.append(self._tick(raw))
        return {"key": raw["key"], "outcome": "known" if known else "kept", "error": None}

    def _tick(self, raw: dict[str, Any]) -> Tick:
        weight = raw["weight"]
        return Tick(
            key=raw["key"],
            act=Act(raw["act"]),
            at=self.minutes(dt.datetime.fromisoformat(raw["at"]).timestamp()),
            cook=raw["cook"],
            tasks=tuple(raw["tasks"]),
            reason=raw["reason"],
            weight=Weight(
                Weighed(weight["kind"]), weight["grams"], weight["tare_grams"], weight["item"]
            )
            if weight
            else None,
            takes_back=raw["takes_back"],
        )


def serve(server: FloorServer) -> tuple[uvicorn.Server, threading.Thread]:
    """Serve on a free port of this machine until `should_exit` is set."""
    listener = socket.socket()
    listener.bind(("127.0.0.1", 0))
    server.address = f"http://127.0.0.1:{listener.getsockname()[1]}"
    config = uvicorn.Config(server.app(), log_level="error", timeout_graceful_shutdown=1)
    found = uvicorn.Server(config)
    thread = threading.Thread(target=found.run, kwargs={"sockets": [listener]}, daemon=True)
    thread.start()
    return found, thread


def _headers(cache: str) -> dict[str, str]:
    return {**SECURITY_HEADERS, "Cache-Control": cache}
