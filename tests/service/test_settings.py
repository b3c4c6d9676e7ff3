from pathlib import Path

import pytest

from service.settings import SettingsError, default_data_dir, load_settings


def test_the_defaults_serve_this_machine_only_and_keep_a_sqlite_file() -> None:
    settings = load_settings()
    assert settings.host == "127.0.0.1"
    assert settings.url == f"sqlite:///{settings.data_dir / 'prepwright.sqlite3'}"
    assert settings.hosts == {"localhost", "127.0.0.1", "::1"}


@pytest.mark.parametrize(
    ("variable", "value", "remedy"),
    [
        ("PORT", "eighty", "Port from 1 to 65535"),
        ("PORT", "70000", "Port from 1 to 65535"),
        ("PLAN_SECONDS", "0", "above 0"),
        ("PLAN_SECONDS", "inf", "above 0"),
        ("SEED", "-1", "from 0"),
        ("WORKERS", "0", "1 to 64"),
        ("DATABASE_URL", "mysql://x", "sqlite://"),
    ],
)
def test_a_bad_value_is_named_with_the_variable_and_the_remedy(
    monkeypatch: pytest.MonkeyPatch, variable: str, value: str, remedy: str
) -> None:
    monkeypatch.setenv(f"PREPWRIGHT_{variable}", value)
    with pytest.raises(SettingsError) as caught:
        load_settings()
    message = str(caught.value)
    assert f"PREPWRIGHT_{variable}: '{value}'" in message
    assert remedy in message


def test_all_bad_values_are_told_at_once(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("PREPWRIGHT_PORT", "x")
    monkeypatch.setenv("PREPWRIGHT_SEED", "y")
    monkeypatch.setenv("PREPWRIGHT_PLANSECONDS", "5")
    with pytest.raises(SettingsError) as caught:
        load_settings()
    assert [line.split(":")[0] for line in str(caught.value).splitlines()] == [
        "PREPWRIGHT_PLANSECONDS",
        "PREPWRIGHT_PORT",
        "PREPWRIGHT_SEED",
    ]
    assert "PREPWRIGHT_PLAN_SECONDS" in str(caught.value)


def test_values_come_from_the_environment(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("PREPWRIGHT_DATA_DIR", "elsewhere")
    monkeypatch.setenv("PREPWRIGHT_ALLOWED_HOSTS", "Prep.Example, kitchen.example")
    monkeypatch.setenv("PREPWRIGHT_PLAN_SECONDS", "2.5")
    settings = load_settings()
    assert settings.sheets_dir == Path("elsewhere/sheets")
    assert {"prep.example", "kitchen.example"} <= settings.hosts
    assert settings.plan_seconds == 2.5


@pytest.mark.parametrize(
    ("platform", "environment", "expected"),
    [
        ("linux", {}, "home/.local/share/prepwright"),
        ("linux", {"XDG_DATA_HOME": "xdg"}, "xdg/prepwright"),
        ("darwin", {}, "home/Library/Application Support/prepwright"),
        ("win32", {"LOCALAPPDATA": "local"}, "local/prepwright"),
    ],
)
def test_data_goes_where_the_platform_keeps_it(
    platform: str, environment: dict[str, str], expected: str
) -> None:
    assert default_data_dir(environment, platform, Path("home")) == Path(expected)
