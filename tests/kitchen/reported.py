"""What reading a changed kitchen file reports."""

import json
from typing import Any

from planner.kitchen.errors import FileError, KitchenErrors
from planner.kitchen.reading import read_kitchen


def reported(file: dict[str, Any] | bytes) -> tuple[FileError, ...]:
    """Every error of the file, none where it can be read."""
    data = file if isinstance(file, bytes) else json.dumps(file).encode()
    try:
        read_kitchen(data)
    except KitchenErrors as errors:
        return errors.errors
    return ()


def only(file: dict[str, Any] | bytes) -> FileError:
    """The one error of the file; it must say where, what, why, and what to do."""
    errors = reported(file)
    assert len(errors) == 1, errors
    assert errors[0].message
    assert errors[0].remedy
    return errors[0]
