"""Files that are there wholly or not at all."""

import os
import tempfile
from pathlib import Path


def write_whole(path: Path, content: str | bytes) -> None:
    """Write ``content``, a text as UTF-8, to ``path``, in place of what is there.

    Raises
    ------
    OSError
        It cannot be written; what was there is left as it was.
    """
    handle, name = tempfile.mkstemp(prefix=f".{path.name}.", dir=path.parent)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(content.encode() if isinstance(content, str) else content)
        Path(name).chmod(0o644)
        Path(name).replace(path)
    except BaseException:
        Path(name).unlink(missing_ok=True)
        raise
