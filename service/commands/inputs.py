"""Read what the commands are given."""

import datetime as dt
from pathlib import Path

from planner.kitchen.document import Kitchen
from planner.kitchen.reading import KitchenErrors, read_kitchen
from service.clock import Now, today_in, utc_now
from service.errors import UserError
from service.settings import Settings
from service.values import PlanChoices

_LARGEST = 5_000_000


def read_file(path: Path) -> bytes:
    """The bytes of a kitchen file; raise UserError where there is none or it is too large."""
    try:
        if path.stat().st_size > _LARGEST:
            raise UserError(
                f"{path}: the file is larger than {_LARGEST} bytes. Is it the right one?"
            )
        return path.read_bytes()
    except OSError as error:
        raise UserError(
            f"{path}: it cannot be read ({error.strerror}). Name an existing kitchen file."
        ) from None


def error_lines(errors: KitchenErrors) -> list[str]:
    """One line for each error: where, what stands there, what is wrong, what to do."""
    lines = []
    for error in errors.errors:
        value = f" {error.value}:" if error.value else ""
        lines.append(f"{error.where}:{value} {error.message}. {error.remedy}")
    return lines


def usable_kitchen(path: Path) -> tuple[bytes, Kitchen]:
    """The bytes of a kitchen file and the kitchen; raise UserError with all that is wrong."""
    data = read_file(path)
    try:
        return data, read_kitchen(data)
    except KitchenErrors as errors:
        raise UserError("\n".join([f"{path}: it cannot be used:", *error_lines(errors)])) from None


def day_of(kitchen: Kitchen, date: dt.datetime | None, now: Now = utc_now) -> dt.date:
    """The day that was asked for, or today in the kitchen's time zone."""
    return today_in(kitchen.time_zone, now) if date is None else date.date()


def choices_of(
    settings: Settings,
    seconds: float | None = None,
    deterministic_limit: float | None = None,
    seed: int | None = None,
) -> PlanChoices:
    """How to search: as the options say, and where they say nothing as the settings say."""
    return PlanChoices(
        seconds=settings.plan_seconds if seconds is None else seconds,
        deterministic_limit=deterministic_limit,
        seed=settings.seed if seed is None else seed,
        workers=settings.workers,
    )
