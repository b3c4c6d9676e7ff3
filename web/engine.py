"""The template engine: everything is escaped, and a name that is not given is an error."""

from functools import cache
from pathlib import Path

from jinja2 import Environment, FileSystemLoader, StrictUndefined

_HERE = Path(__file__).parent


@cache
def _environment() -> Environment:
    return Environment(
        loader=FileSystemLoader(_HERE / "templates"),
        # On for every template, whatever its suffix: names come from people.
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        auto_reload=False,
    )


def render(template: str, **values: object) -> str:
    """Fill ``template``; the values are escaped where they are put in."""
    return _environment().get_template(template).render(**values)


@cache
def stylesheet() -> str:
    """The style sheet's text, for pages that carry it with them."""
    return (_HERE / "static" / "prepwright.css").read_text(encoding="utf-8")
