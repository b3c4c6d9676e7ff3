"""Brings the gettext catalogues up to date with the texts in the code.

Run it after a text that people read has changed: ``python docs/catalogues.py``. New texts are
added without a translation, texts that are gone are dropped, and nothing is guessed. The test of
the catalogues fails until each has its translation.
"""

from pathlib import Path

from babel.messages.catalog import Catalog
from babel.messages.extract import extract_from_dir
from babel.messages.pofile import read_po, write_po

from planner.kitchen.schema import field_descriptions
from web.language import DOMAIN, LANGUAGES, SOURCE

_ROOT = Path(__file__).parent.parent
_FOLDERS = ("planner", "web", "service")
_METHODS = [("**/templates/**", "jinja2.ext:babel_extract"), ("**.py", "python")]
_OPTIONS = {
    "**/templates/**": {"trimmed": "true", "trim_blocks": "true", "lstrip_blocks": "true"},
}
_KEYWORDS = {
    "_": None,
    "gettext": None,
    "ngettext": (1, 2),
    "pgettext": ((1, "c"), 2),
    "sentence": None,
    "counted": (1, 2),
}
_WIDTH = 96


def texts() -> Catalog:
    """Every text in the code, with where it stands."""
    found = Catalog(project="prepwright", charset="utf-8", fuzzy=False)
    for folder in _FOLDERS:
        for path, _, message, comments, context in extract_from_dir(
            _ROOT / folder,
            method_map=_METHODS,
            options_map=_OPTIONS,
            keywords=_KEYWORDS,
            comment_tags=("Translators:",),
            strip_comment_tags=True,
        ):
            # Without line numbers: they would change with every line that is written above.
            found.add(message, None, [(f"{folder}/{path}", 0)], (), comments, context=context)
    for description in field_descriptions():
        # Errors of a kitchen file say what a field is for.
        found.add(description, None, [("planner/kitchen/schema.py", 0)])
    return found


def catalogue_path(language: str) -> Path:
    """Where a language's catalogue lies."""
    return _ROOT / "web" / "locale" / language / "LC_MESSAGES" / f"{DOMAIN}.po"


def catalogue(language: str) -> Catalog:
    """A language's catalogue as it is; empty where there is none."""
    path = catalogue_path(language)
    if not path.exists():
        return Catalog(locale=language, domain=DOMAIN, project="prepwright", fuzzy=False)
    with path.open("rb") as file:
        return read_po(file, locale=language, domain=DOMAIN)


def main() -> None:
    """Write the catalogues of all languages but the source's own."""
    template = texts()
    for language in LANGUAGES:
        if language == SOURCE:
            continue
        found = catalogue(language)
        found.update(template, no_fuzzy_matching=True, update_creation_date=False)
        found.obsolete.clear()
        found.msgid_bugs_address = ""
        path = catalogue_path(language)
        path.parent.mkdir(parents=True, exist_ok=True)
        with path.open("wb") as file:
            write_po(file, found, width=_WIDTH, sort_by_file=True, include_lineno=False)
        missing = sum(1 for message in found if message.id and not message.string)
        print(  # noqa: T201 - a command
            f"{language}: {len(found)} texts, {missing} without a translation"
        )


if __name__ == "__main__":
    main()
