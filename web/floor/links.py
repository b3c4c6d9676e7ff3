"""Where the live pages of one day point."""

from dataclasses import dataclass
from urllib.parse import quote

WORKER = "/floor/worker.js"
"""The service worker; its scope is the folder it lies in."""


@dataclass(frozen=True, slots=True)
class FloorLinks:
    """Addresses of the floor of one day, and which state of it a page shows.

    Attributes
    ----------
    base
        Path of the floor home, without a slash at its end.
    ticks
        Where ticks are sent to.
    release, version
        Number of the release, and how many ticks of it are known.
    assets
        Folder of the static files. With `web.assets.assets_version` in it a browser need not ask
        for them again.
    midnight
        Seconds from the epoch to midnight of the planned day on the kitchen's wall, by the
        server's clock; 0: a device takes midnight from its own clock.
    bench
        Path of the kitchen's yield bench; empty: it is not offered.
    """

    base: str
    ticks: str
    release: int
    version: int
    assets: str = "/static"
    midnight: float = 0.0
    bench: str = ""

    @property
    def home(self) -> str:
        """Where a cook chooses a name."""
        return self.base

    @property
    def wall(self) -> str:
        """The live page for a screen on the wall."""
        return f"{self.base}/wall"

    @property
    def happened(self) -> str:
        """Where it is said that something has happened."""
        return f"{self.base}/happened"

    @property
    def review(self) -> str:
        """Planned against ticked minutes, for the manager."""
        return f"{self.base}/review"

    @property
    def stream(self) -> str:
        """The event stream that tells of changes."""
        return f"{self.base}/stream"

    @property
    def worker(self) -> str:
        """The service worker."""
        return WORKER

    def cook(self, cook: str) -> str:
        """A cook's live page."""
        return f"{self.base}/cooks/{quote(cook, safe='')}"

    def asset(self, name: str) -> str:
        """A static file: ``floor/cook.js``."""
        return f"{self.assets}/{name}"
