"""Where pages point, so that the same templates serve a server's paths and files on disk."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Self
from urllib.parse import quote

STYLESHEETS = ("/static/screen.css", "/static/paper.css")
"""In the order they apply."""
WHY_FILE = "why.html"
"""All quantities stand in one file: a file each would repeat the style a hundred times."""


@dataclass(frozen=True, slots=True)
class Choice:
    """One of several pages to go to: a link, or the one that is shown."""

    label: str
    href: str
    current: bool = False


@dataclass(frozen=True, slots=True)
class Links:
    """Addresses of the pages of one plan.

    ``home`` leads to the list of plans, where there is one. ``stylesheets`` are not used by
    pages that carry their style.
    ``printing`` leads to what can be printed, where a server makes it.
    ``costs`` leads to what the day costs, where a server shows it.
    ``more`` leads to what else can be done with the plan.
    ``all_whys`` explains every quantity, ``why`` that of one item; only items in ``explained`` are
    linked.
    """

    kitchen: str
    wall: str
    cook: Callable[[str], str]
    all_whys: str
    why: Callable[[str], str]
    home: str | None = None
    stylesheets: tuple[str, ...] = STYLESHEETS
    more: tuple[Choice, ...] = ()
    printing: str | None = None
    costs: str | None = None
    explained: frozenset[str] = frozenset()

    @classmethod
    def under(cls, prefix: str, *, home: str | None = "/") -> Self:
        """Addresses on a server: ``prefix`` and below it, as ``prefix/cooks/<id>``.

        Parameters
        ----------
        prefix
            Path of the plan, without a slash at its end.
        home
            Path of the list of plans.
        """
        return cls(
            kitchen=prefix,
            wall=f"{prefix}/wall",
            cook=lambda cook: f"{prefix}/cooks/{quote(cook, safe='')}",
            all_whys=f"{prefix}/why",
            why=lambda item: f"{prefix}/why/{quote(item, safe='')}",
            home=home,
            printing=f"{prefix}/print",
            costs=f"{prefix}/costs",
        )

    @classmethod
    def files(cls) -> Self:
        """Names of files side by side in one folder."""
        return cls(
            kitchen="kitchen.html",
            wall="wall.html",
            cook=cook_file,
            all_whys=WHY_FILE,
            why=lambda item: f"{WHY_FILE}#{quote(why_anchor(item))}",
        )


def cook_file(cook: str) -> str:
    """File name of a cook's sheet."""
    return f"cook-{quote(cook, safe='')}.html"


def why_anchor(item: str) -> str:
    """Where an item's reasons stand on the page of all."""
    return f"why-{item}"
