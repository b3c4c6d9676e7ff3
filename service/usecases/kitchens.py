"""Keep and hand out kitchen files."""

import re
import unicodedata
from dataclasses import dataclass

from planner.kitchen.reading import read_kitchen
from service.clock import Now
from service.db.unit_of_work import Database
from service.errors import ConflictError, Fault, NotFoundError
from service.values import KitchenSummary
from web.language import _


@dataclass(frozen=True, slots=True)
class StoredKitchen:
    """A kitchen after storing, and whether that added a version."""

    kitchen: KitchenSummary
    added: bool


def slug_of(name: str) -> str:
    """A kitchen's name as it stands in addresses: lower-case ASCII letters, digits, hyphens."""
    plain = unicodedata.normalize("NFKD", name).encode("ascii", "ignore").decode().lower()
    return re.sub(r"[^a-z0-9]+", "-", plain).strip("-") or "kitchen"


def store_kitchen(
    database: Database,
    data: bytes,
    *,
    actor: str,
    now: Now,
    slug: str | None = None,
    must_be_new: bool = False,
) -> StoredKitchen:
    """Check a kitchen file and keep it as a new kitchen or the next version of one.

    Parameters
    ----------
    database
        Where it is kept.
    data
        The file, UTF-8 JSON.
    actor
        Who stores it.
    now
        The clock.
    slug
        The kitchen's name in addresses; default: from the name in the file.
    must_be_new
        Refuse a slug that is taken by another file.

    Raises
    ------
    planner.kitchen.reading.KitchenErrors
        The file is bad; nothing is stored.
    ConflictError
        The slug is taken and the kitchen had to be new.
    """
    kitchen = read_kitchen(data)
    slug = slug or slug_of(kitchen.name)
    with database.writing() as unit:
        known = unit.kitchens.summary(slug) is not None
        stored, added = unit.kitchens.add(
            slug=slug, name=kitchen.name, document=data, actor=actor, now=now()
        )
        if must_be_new and known and added:
            raise ConflictError(
                Fault(
                    "name",
                    kitchen.name,
                    _("there is a kitchen '%(slug)s' with another file already", slug=slug),
                    _(
                        "PUT the file to %(address)s as its next version, or rename it",
                        address=f"/api/v1/kitchens/{slug}",
                    ),
                )
            )
        unit.commit()
    return StoredKitchen(stored, added)


def list_kitchens(database: Database) -> tuple[KitchenSummary, ...]:
    """All kitchens, by name."""
    with database.reading() as unit:
        return unit.kitchens.summaries()


def kitchen_file(database: Database, slug: str) -> bytes:
    """The newest file of a kitchen, byte for byte as it was given.

    Raises
    ------
    NotFoundError
        There is no such kitchen.
    """
    with database.reading() as unit:
        stored = unit.kitchens.newest(slug)
    if stored is None:
        raise no_such_kitchen(slug)
    return stored.document


def no_such_kitchen(slug: str) -> NotFoundError:
    """The error for a kitchen that is not stored."""
    return NotFoundError(
        Fault(
            "kitchen",
            slug,
            _("there is no such kitchen"),
            _("See /api/v1/kitchens for those stored"),
        )
    )
