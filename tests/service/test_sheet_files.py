import datetime as dt
import json
import re
import uuid
from html.parser import HTMLParser
from pathlib import Path

import pytest

from planner.kitchen.reading import read_kitchen
from service.planning import Made
from service.sheet_files import SheetFiles, write_sheet_files
from tests.service import stubs

DAY = dt.date(2026, 3, 2)


@pytest.fixture
def plan() -> Made:
    return stubs.made(read_kitchen(stubs.kitchen_bytes()), DAY, "file")


class Links(HTMLParser):
    """Everything a page points at."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.found: set[str] = set()
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        del tag
        self.found |= {value for name, value in attrs if name in ("href", "src") and value}


def test_a_plans_files_stand_in_a_folder_of_its_own_by_date(tmp_path: Path, plan: Made) -> None:
    plan_id = uuid.uuid4()
    files = SheetFiles(tmp_path)
    files.write(plan_id, plan)
    folder = tmp_path / "2026-03-02" / str(plan_id)
    assert files.folder(plan_id, plan) == folder
    assert {path.name for path in folder.iterdir()} == {
        "index.html",
        "cook-ada.html",
        "wall.html",
        "wall.pdf",
        "wall.svg",
        "sheets.pdf",
        "pull-list.pdf",
        "why.html",
        "plan.json",
        "sheet.json",
    }
    assert json.loads((folder / "plan.json").read_text()) == {"origin": "file"}


def test_pages_open_by_themselves_and_their_links_lead_to_files_beside_them(
    tmp_path: Path, plan: Made
) -> None:
    write_sheet_files(tmp_path, plan)
    for page in tmp_path.glob("*.html"):
        text = page.read_text(encoding="utf-8")
        assert "<style>" in text
        found = {link for link in Links(text).found if not link.startswith("#")}
        assert found, page
        for link in found:
            name, _, anchor = link.partition("#")
            assert (tmp_path / name).is_file(), f"{page.name} -> {link}"
            if anchor:
                assert f'id="{anchor}"' in (tmp_path / name).read_text(encoding="utf-8")
        assert not re.search(r"url\(\s*['\"]?https?:", text)


def test_why_each_quantity_is_what_it_is_stands_in_one_file(tmp_path: Path, plan: Made) -> None:
    write_sheet_files(tmp_path, plan)
    assert "20 x 150 g / 0.85" in (tmp_path / "why.html").read_text(encoding="utf-8")
    assert 'href="why.html"' in (tmp_path / "index.html").read_text(encoding="utf-8")


def test_writing_again_replaces_and_leaves_nothing_half_written_behind(
    tmp_path: Path, plan: Made
) -> None:
    write_sheet_files(tmp_path, plan)
    before = {path.name for path in tmp_path.iterdir()}
    write_sheet_files(tmp_path, plan)
    assert {path.name for path in tmp_path.iterdir()} == before


def test_a_file_that_cannot_be_written_leaves_the_one_that_was_there(
    tmp_path: Path, plan: Made, monkeypatch: pytest.MonkeyPatch
) -> None:
    write_sheet_files(tmp_path, plan)
    before = (tmp_path / "index.html").read_text(encoding="utf-8")

    def full_disk(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(Path, "replace", full_disk)
    with pytest.raises(OSError, match="No space left"):
        write_sheet_files(tmp_path, plan)
    assert (tmp_path / "index.html").read_text(encoding="utf-8") == before
    assert not list(tmp_path.glob(".*"))
