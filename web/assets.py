"""Which static files these are, so that a browser may keep them until they are others."""

import hashlib
from functools import cache
from pathlib import Path

_STATIC = Path(__file__).parent / "static"
_DIGITS = 12


@cache
def assets_version() -> str:
    """The first digits of the SHA-256 of all static files, names included.

    A server that offers the files under ``/static/<version>/`` as well as under ``/static/`` can
    let browsers keep those for good: another file is another address.
    """
    digest = hashlib.sha256()
    for file in sorted(path for path in _STATIC.rglob("*") if path.is_file()):
        digest.update(file.relative_to(_STATIC).as_posix().encode())
        digest.update(b"\0")
        digest.update(file.read_bytes())
        digest.update(b"\0")
    return digest.hexdigest()[:_DIGITS]
