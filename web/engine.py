"""The template engine: everything is escaped, and a name that is not given is an error."""

from functools import cache
from pathlib import Path

from jinja2 import Environment, FileSystemLoader, StrictUndefined

from web.language import gettext, language, ngettext, pgettext
from web.links import STYLESHEETS
from web.reading import reading_choices
from web.sentences import said

_HERE = Path(__file__).parent


@cache
def _environment() -> Environment:
    environment = Environment(
        loader=FileSystemLoader(_HERE / "templates"),
        # On for every template, whatever its suffix: names come from people.
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        auto_reload=False,
    )
    environment.add_extension("jinja2.ext.i18n")
    # A translated text is escaped like any other, and its values with it.
    environment.install_gettext_callables(  # type: ignore[attr-defined]
        gettext, ngettext, newstyle=True, pgettext=pgettext
    )
    environment.policies["ext.i18n.trimmed"] = True
    environment.globals.update(language=language, reading_choices=reading_choices)
    environment.filters["capitalize_first"] = capitalize_first
    environment.filters["said"] = said
    return environment


def capitalize_first(text: str) -> str:
    """A remedy as a sentence: what follows the first letter stays as it is."""
    return text[:1].upper() + text[1:]


def render(template: str, **values: object) -> str:
    """Fill ``template``; the values are escaped where they are put in."""
    return _environment().get_template(template).render(**values)


@cache
def stylesheet() -> str:
    """The style sheets as one text, for pages that carry it with them."""
    static = _HERE / "static"
    return "\n".join((static / Path(href).name).read_text(encoding="utf-8") for href in STYLESHEETS)
