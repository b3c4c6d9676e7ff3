"""Settings from ``PREPWRIGHT_*`` environment variables, checked before anything else happens."""

import os
import sys
from collections.abc import Mapping
from pathlib import Path
from typing import Annotated

from pydantic import Field, ValidationError, field_validator
from pydantic_settings import BaseSettings, NoDecode, SettingsConfigDict

from service.errors import UserError
from web.language import LANGUAGES, SOURCE

PREFIX = "PREPWRIGHT_"
LOOPBACK = ("localhost", "127.0.0.1", "::1")


class SettingsError(UserError):
    """One or more settings are wrong; the message has a line for each, with its remedy."""


def default_data_dir(environment: Mapping[str, str], platform: str, home: Path) -> Path:
    """Where this user's programs keep their data, by the platform's own custom.

    Parameters
    ----------
    environment
        Environment variables; ``XDG_DATA_HOME`` and ``LOCALAPPDATA`` are looked at.
    platform
        A value of ``sys.platform``.
    home
        The user's home folder.
    """
    if platform == "win32":
        base = Path(environment.get("LOCALAPPDATA") or home / "AppData" / "Local")
    elif platform == "darwin":
        base = home / "Library" / "Application Support"
    else:
        base = Path(environment.get("XDG_DATA_HOME") or home / ".local" / "share")
    return base / "prepwright"


class Settings(BaseSettings):
    """Everything that may be set from outside. Each field is read from ``PREPWRIGHT_<NAME>``."""

    model_config = SettingsConfigDict(env_prefix=PREFIX, frozen=True, extra="forbid")

    data_dir: Path = Field(
        default_factory=lambda: default_data_dir(os.environ, sys.platform, Path.home()),
        description="Folder for the database and the written sheets, such as './prepwright-data'.",
    )
    database_url: str | None = Field(
        default=None,
        pattern=r"^(sqlite|postgresql)(\+[a-z0-9]+)?://",
        description="Database URL beginning 'sqlite://' or 'postgresql://'; "
        "leave it out for a SQLite file in the data folder.",
    )
    host: str = Field(
        default="127.0.0.1",
        min_length=1,
        description="Address to serve on. There is no sign-in: keep 127.0.0.1 unless a proxy with "
        "its own sign-in stands in front.",
    )
    port: int = Field(
        default=8000, ge=0, le=65535, description="Port from 1 to 65535, such as 8000; 0: any free."
    )
    tls_port: int | None = Field(
        default=None,
        ge=0,
        le=65535,
        description="Port to serve on with HTTPS as well, such as 8443, by a certificate of the "
        "kitchen's own; 0: any free. Leave it out for none.",
    )
    allowed_hosts: Annotated[tuple[str, ...], NoDecode] = Field(
        default=(),
        description="Further host names that requests may carry, separated by commas.",
    )
    plan_seconds: float = Field(
        default=8.0,
        gt=0,
        le=3600,
        allow_inf_nan=False,
        description="Seconds to search for a better plan, above 0 and up to 3600.",
    )
    seed: int = Field(
        default=1,
        ge=0,
        le=2**31 - 1,
        description="Whole number from 0 to 2147483647 that seeds the search.",
    )
    language: str = Field(
        default=SOURCE,
        description="Language of the sheets that are written as files, by its ISO 639-1 code: "
        f"{' or '.join(LANGUAGES)}.",
    )
    workers: int = Field(
        default=2, ge=1, le=64, description="Processor cores the search uses, 1 to 64."
    )

    @field_validator("language")
    @classmethod
    def _known_language(cls, value: str) -> str:
        if value not in LANGUAGES:
            raise ValueError("the program does not know this language")
        return value

    @field_validator("allowed_hosts", mode="before")
    @classmethod
    def _split_hosts(cls, value: object) -> object:
        if isinstance(value, str):
            return tuple(part.strip() for part in value.split(",") if part.strip())
        return value

    @property
    def url(self) -> str:
        """The database URL in force."""
        return self.database_url or f"sqlite:///{self.data_dir / 'prepwright.sqlite3'}"

    @property
    def sheets_dir(self) -> Path:
        """Folder of the written sheets."""
        return self.data_dir / "sheets"

    @property
    def tls_dir(self) -> Path:
        """Folder of the kitchen's own certificates."""
        return self.data_dir / "tls"

    @property
    def open_to_others(self) -> bool:
        """Whether it is served to more than this machine."""
        return self.host not in LOOPBACK

    @property
    def hosts(self) -> frozenset[str]:
        """Host names a request may carry, against pages that point a name of theirs here."""
        return frozenset(name.lower() for name in (*LOOPBACK, self.host, *self.allowed_hosts))


def load_settings(environment: Mapping[str, str] | None = None) -> Settings:
    """Read the settings from the environment.

    Parameters
    ----------
    environment
        Looked at for names that begin with the prefix but are no setting; default: the process's.

    Raises
    ------
    SettingsError
        A value is bad or a name unknown; names each variable, its value and what to set instead.
    """
    names = os.environ if environment is None else environment
    known = {PREFIX + name.upper(): field for name, field in Settings.model_fields.items()}
    lines = [
        f"{name}: {names[name]!r}: there is no such setting. "
        f"Unset it, or use one of {', '.join(sorted(known))}."
        for name in sorted(names)
        if name.upper().startswith(PREFIX) and name.upper() not in known
    ]
    try:
        settings = Settings()
    except ValidationError as error:
        for problem in error.errors(include_url=False):
            variable = PREFIX + str(problem["loc"][0]).upper()
            field = known[variable]
            lines.append(
                f"{variable}: {problem['input']!r}: {problem['msg']}. Set it: {field.description}"
            )
        raise SettingsError("\n".join(lines)) from None
    if lines:
        raise SettingsError("\n".join(lines))
    return settings
