"""Files that are there wholly or not at all."""

import os
import tempfile
from pathlib import Path


def write_whole(path: Path, text: str) -> None:
    """Write ``text`` as UTF-8 to ``path``, in place of what is there.

    Raises
    ------
    OSError
        It cannot be written; what was there is left as it was.
    """
    handle, name = tempfile.mkstemp(prefix=f".{path.name}.", dir=path.parent)
    try:
        with os.fdopen(handle, "w", encoding="utf-8", newline="\n") as file:
            file.write(text)
        Path(name).chmod(0o644)
        Path(name).replace(path)
    except BaseException:
        Path(name).unlink(missing_ok=True)
        raise
