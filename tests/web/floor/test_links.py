"""Addresses of the floor, and the static files' version."""

from pathlib import Path

import web
from tests.web.floor.example import BASE, LINKS
from web.assets import assets_version
from web.floor.links import FloorLinks

_VENDOR = Path(web.__file__).parent / "static" / "vendor"


def test_pages_lie_below_the_day() -> None:
    links = FloorLinks(BASE, "/ticks", 1, 0)
    assert links.cook("a/b") == f"{BASE}/cooks/a%2Fb"
    assert links.wall == f"{BASE}/wall"
    assert links.stream == f"{BASE}/stream"
    assert LINKS.home == BASE


def test_static_files_stand_where_the_server_says() -> None:
    version = assets_version()
    assert len(version) == 12
    assert int(version, 16) >= 0
    links = FloorLinks(BASE, "/ticks", 1, 0, assets=f"/static/{version}")
    assert links.asset("floor/cook.js") == f"/static/{version}/floor/cook.js"


def test_kept_libraries_are_what_their_list_says() -> None:
    import hashlib  # noqa: PLC0415
    import re  # noqa: PLC0415

    listed = dict(
        re.findall(
            r"^\| `([\w.-]+\.(?:js|ttf))` .*`([0-9a-f]{64})` \|$",
            (_VENDOR / "README.md").read_text(encoding="utf-8"),
            re.M,
        )
    )
    files = {
        file.name: hashlib.sha256(file.read_bytes()).hexdigest()
        for file in _VENDOR.iterdir()
        if file.suffix in (".js", ".ttf")
    }
    assert listed == files
