"""Static files, under an address that says which they are, and under one that does not."""

from fastapi import FastAPI
from starlette.responses import Response
from starlette.staticfiles import StaticFiles
from starlette.types import Scope

from web.assets import assets_version

_FOR_GOOD = "public, max-age=31536000, immutable"


class KeptFiles(StaticFiles):
    """Files that browsers keep for good: other files have another address."""

    async def get_response(self, path: str, scope: Scope) -> Response:
        """The file, to be kept."""
        response = await super().get_response(path, scope)
        response.headers["Cache-Control"] = _FOR_GOOD
        return response


def mount_static(app: FastAPI) -> None:
    """Serve the static files of the pages."""
    packages: list[str | tuple[str, str]] = [("web", "static")]
    app.mount(f"/static/{assets_version()}", KeptFiles(packages=packages), name="kept")
    app.mount("/static", StaticFiles(packages=packages), name="static")
