"""docs/running.md says what the program does."""

from pathlib import Path

import pytest

from service.cli import app
from service.commands.exits import Exit
from service.settings import PREFIX, Settings

PAGE = (Path(__file__).parents[2] / "docs" / "running.md").read_text(encoding="utf-8")


@pytest.mark.parametrize("name", sorted(Settings.model_fields))
def test_every_setting_is_listed_with_its_default(name: str) -> None:
    [row] = [line for line in PAGE.splitlines() if line.startswith(f"| `{PREFIX}{name.upper()}`")]
    default = Settings.model_fields[name].default
    if isinstance(default, int | float | str):
        assert f"| `{default:g}` |" in row if isinstance(default, float) else f"`{default}`" in row


def test_every_exit_code_is_listed() -> None:
    listed = [line.split("|")[1].strip() for line in PAGE.splitlines() if line.startswith("| ")]
    assert {str(int(code)) for code in Exit} <= set(listed)


def test_every_command_is_listed() -> None:
    for command in app.registered_commands:
        assert command.callback is not None
        assert f"`prepwright {command.callback.__name__}" in PAGE
