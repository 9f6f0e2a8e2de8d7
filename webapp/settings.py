"""Typed settings, read from the environment. There is no sign-in yet, so the server keeps to this machine unless told otherwise."""

from ipaddress import ip_address
from pathlib import Path

from pydantic import Field, model_validator
from pydantic_settings import BaseSettings, SettingsConfigDict

ROOT = Path(__file__).resolve().parent.parent
TEMPLATES = ROOT / "templates"
STATIC = ROOT / "static"
MIGRATIONS = ROOT / "migrations"


class Settings(BaseSettings):
    """What an installation can choose.

    Environment: HOST, PORT, DATABASE_URL, and WALLSEAT_DEMO, WALLSEAT_OPEN_TO_NETWORK, WALLSEAT_PUBLIC_ORIGIN.
    """

    model_config = SettingsConfigDict(extra="ignore", populate_by_name=True)

    host: str = Field(default="127.0.0.1", validation_alias="HOST")
    port: int = Field(default=8000, ge=0, le=65535, validation_alias="PORT")
    database_url: str = Field(default=f"sqlite:///{ROOT / 'var' / 'wallseat.sqlite'}", validation_alias="DATABASE_URL")
    demo: bool = Field(
        default=False, validation_alias="WALLSEAT_DEMO", description="Load the demo job when there is no job."
    )
    open_to_network: bool = Field(
        default=False,
        validation_alias="WALLSEAT_OPEN_TO_NETWORK",
        description="Allow a HOST other machines can reach. Anyone who reaches it can read and change every job.",
    )
    public_origin: str = Field(
        default="",
        validation_alias="WALLSEAT_PUBLIC_ORIGIN",
        description="Scheme and host as browsers see them (https://…), when a proxy stands in front.",
    )
    threads: int = Field(
        default=4, ge=1, le=64, validation_alias="WALLSEAT_THREADS", description="Handlers run at once."
    )

    @model_validator(mode="after")
    def _stays_on_this_machine(self) -> "Settings":
        if not self.open_to_network and not _is_loopback(self.host):
            raise ValueError(
                f"HOST {self.host} can be reached by other machines and there is no sign-in yet. "
                "Use 127.0.0.1, or set WALLSEAT_OPEN_TO_NETWORK=1 if everyone who can reach it may change every job."
            )
        return self


def _is_loopback(host: str) -> bool:
    if host == "localhost":
        return True
    try:
        return ip_address(host).is_loopback
    except ValueError:
        return False
