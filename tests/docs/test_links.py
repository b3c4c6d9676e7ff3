"""What the pages for people point to is there: files, headings, paths, names of the code."""

import importlib
import keyword
import re
from operator import attrgetter
from pathlib import Path

import pytest

from service.settings import PREFIX, Settings

ROOT = Path(__file__).parents[2]
PAGES = [
    page
    for page in (
        *(ROOT / "docs").rglob("*.md"),
        ROOT / "README.md",
        ROOT / "DEVELOPERS.md",
        ROOT / "CHANGELOG.md",
    )
    if page.exists()
]
OURS = [
    page
    for page in PAGES
    if page.parent.name == "decisions" or page.stem in ("architecture", "glossary", "schedule")
]
"""Pages about the code itself, whose names must be the code's."""
LINK = re.compile(r"\]\((?!https?:|mailto:)([^)\s]+)\)")
CODE = re.compile(r"`([^`\n]+)`")
PATH = re.compile(r"(?:planner|web|service|tests|docs|seed_data)/[\w./-]*")
NAME = re.compile(r"[A-Za-z_][A-Za-z0-9_]*")


def name_of(page: Path) -> str:
    return page.relative_to(ROOT).as_posix()


def prose(page: Path) -> str:
    """The page's text without fenced code."""
    return re.sub(r"```.*?```", "", page.read_text(encoding="utf-8"), flags=re.DOTALL)


def anchors(page: Path) -> set[str]:
    """Names of a page's headings, as hosts of Markdown make them."""
    headings = re.findall(r"^#+ (.+)$", prose(page), re.MULTILINE)
    return {re.sub(r"[^\w\- ]", "", heading.lower()).replace(" ", "-") for heading in headings}


def names_in_code() -> set[str]:
    words = {*keyword.kwlist, *(f"{PREFIX}{name.upper()}" for name in Settings.model_fields)}
    for folder in ("planner", "web", "service", "tests", "seed_data", "docs"):
        for path in (ROOT / folder).rglob("*"):
            if path.suffix in (".py", ".json"):
                words.update(NAME.findall(path.read_text(encoding="utf-8")))
    for name in ("pyproject.toml", ".ci/run"):
        words.update(NAME.findall((ROOT / name).read_text(encoding="utf-8")))
    return words


def figures() -> list[tuple[str, str, str]]:
    """(module, name, value) of the table of figures."""
    page = (ROOT / "docs" / "schedule.md").read_text(encoding="utf-8")
    row = re.compile(r"^\| `(planner/[\w/]+)\.py` \| `([\w.]+)` \| (.+?) \|", re.MULTILINE)
    return row.findall(page)


@pytest.mark.parametrize("page", PAGES, ids=name_of)
def test_every_link_inside_the_project_leads_somewhere(page: Path) -> None:
    for link in LINK.findall(prose(page)):
        target, _, heading = link.partition("#")
        found = (page.parent / target).resolve() if target else page
        assert found.exists(), f"{name_of(page)} links to {link}"
        if heading and found.suffix == ".md":
            assert heading in anchors(found), f"{name_of(page)} links to {link}"


@pytest.mark.parametrize("page", PAGES, ids=name_of)
def test_every_path_that_is_named_exists(page: Path) -> None:
    for code in CODE.findall(prose(page)):
        if PATH.fullmatch(code) and code != "tests/artefacts/":  # made by the browser tests
            assert (ROOT / code).exists(), f"{name_of(page)} names {code}"


def test_there_are_paths_and_figures_to_check() -> None:
    """That the patterns above still find what they are for."""
    paths = [code for page in OURS for code in CODE.findall(prose(page)) if PATH.fullmatch(code)]
    assert len(paths) > 50
    assert len(figures()) > 10


def test_every_name_of_the_code_is_still_its_name() -> None:
    known = names_in_code()
    for page in OURS:
        for code in CODE.findall(prose(page)):
            if not PATH.fullmatch(code):
                unknown = set(NAME.findall(code)) - known
                assert not unknown, f"{name_of(page)} names {sorted(unknown)} in `{code}`"


@pytest.mark.parametrize(("module", "name", "value"), figures())
def test_the_figures_of_the_search_are_the_codes(module: str, name: str, value: str) -> None:
    found = attrgetter(name)(importlib.import_module(module.replace("/", ".")))
    assert str(found) == value


def test_every_decision_is_listed() -> None:
    listed = LINK.findall((ROOT / "docs" / "architecture.md").read_text(encoding="utf-8"))
    written = {f"decisions/{page.name}" for page in (ROOT / "docs" / "decisions").glob("*.md")}
    assert written == {link for link in listed if link.startswith("decisions/")}
