"""The real server with the bundled kitchen, and a clock that tests set."""

import datetime as dt
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from importlib.resources import files
from pathlib import Path
from zoneinfo import ZoneInfo

import httpx
import uvicorn

from planner.kitchen.dates import moved_to
from planner.kitchen.reading import read_kitchen
from service.app import create_app
from service.documents import kitchen_bytes
from service.settings import Settings

DATE = dt.date(2027, 3, 10)
"""A Wednesday, as the bundled day is."""
SECONDS = 2.0
"""Of search: long enough to be followed on the page."""


@dataclass
class Wall:
    """The clock on the kitchen's wall, which runs from where it is set."""

    zone: ZoneInfo
    at: dt.datetime = field(init=False)
    since: float = field(init=False)

    def __post_init__(self) -> None:
        self.set(5, 30)

    def set(self, hour: int, minute: int) -> None:
        """Set the clock on the planned day."""
        self.at = dt.datetime.combine(DATE, dt.time(hour, minute), self.zone)
        self.since = time.monotonic()

    def __call__(self) -> dt.datetime:
        """The moment, as the service asks for it."""
        passed = dt.timedelta(seconds=time.monotonic() - self.since)
        return (self.at + passed).astimezone(dt.UTC)


@dataclass(frozen=True)
class KitchenServer:
    """Where the kitchen is served, and what its day is called there."""

    address: str
    slug: str
    name: str
    wall: Wall

    @property
    def day(self) -> str:
        """Path of the day's page."""
        return f"/kitchens/{self.slug}/days/{DATE}"

    @property
    def floor(self) -> str:
        """Path of the day's floor."""
        return f"/floor/{self.slug}/{DATE}"


@contextmanager
def serving(
    folder: Path, file: str = "demo.json", seconds: float = SECONDS
) -> Iterator[KitchenServer]:
    """Serve a bundled kitchen, moved to ``DATE``, until the block ends."""
    bundled = read_kitchen(files("seed_data").joinpath(file).read_bytes())
    kitchen = moved_to(bundled, DATE)
    wall = Wall(ZoneInfo(kitchen.time_zone))
    app = create_app(Settings(data_dir=folder, plan_seconds=seconds), now=wall)
    server = uvicorn.Server(
        uvicorn.Config(app, port=0, log_level="warning", timeout_graceful_shutdown=1)
    )
    thread = threading.Thread(target=server.run, daemon=True)
    thread.start()
    while not server.started:
        time.sleep(0.05)
    address = f"http://localhost:{server.servers[0].sockets[0].getsockname()[1]}"
    stored = httpx.post(
        f"{address}/api/v1/kitchens",
        content=kitchen_bytes(kitchen),
        headers={"Content-Type": "application/json"},
        timeout=30,
    )
    stored.raise_for_status()
    listed = httpx.get(f"{address}/api/v1/kitchens", timeout=30).json()
    try:
        yield KitchenServer(address, listed[0]["slug"], kitchen.name, wall)
    finally:
        server.should_exit = True
        thread.join(10)
