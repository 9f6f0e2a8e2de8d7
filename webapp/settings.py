"""Typed settings, read from the environment. The demo, where anyone may sign in by pressing a button, stays on this machine."""

import os
from ipaddress import ip_address
from pathlib import Path

from pydantic import Field, model_validator
from pydantic_settings import BaseSettings, SettingsConfigDict

from webapp.folders import INSTALLED, ROOT


def _data_folder() -> Path:
    """Where the database lies unless told otherwise: in the checkout, or where the system keeps a user's data."""
    if not INSTALLED:
        return ROOT / "var"
    return Path(os.environ.get("XDG_DATA_HOME") or Path.home() / ".local" / "share") / "wallseat"


class Settings(BaseSettings):
    """What an installation can choose.

    Environment: HOST, PORT, DATABASE_URL, and WALLSEAT_DEMO, WALLSEAT_PUBLIC_ORIGIN, WALLSEAT_THREADS, WALLSEAT_PROCESSES,
    WALLSEAT_METRICS_PORT, WALLSEAT_OPEN_RATE, WALLSEAT_SLOW_MS, WALLSEAT_PACKAGES.
    """

    model_config = SettingsConfigDict(extra="ignore", populate_by_name=True)

    host: str = Field(default="127.0.0.1", validation_alias="HOST")
    port: int = Field(default=8000, ge=0, le=65535, validation_alias="PORT")
    database_url: str = Field(
        default=f"sqlite:///{_data_folder() / 'wallseat.sqlite'}", validation_alias="DATABASE_URL"
    )
    demo: bool = Field(
        default=False,
        validation_alias="WALLSEAT_DEMO",
        description="Load the demo job where there is none, and let anyone on this machine sign in by pressing a button.",
    )
    public_origin: str = Field(
        default="",
        validation_alias="WALLSEAT_PUBLIC_ORIGIN",
        description="Scheme and host as browsers see them (https://…), when a proxy stands in front.",
    )
    threads: int = Field(
        default=4, ge=1, le=64, validation_alias="WALLSEAT_THREADS", description="Handlers run at once."
    )
    processes: int = Field(
        default=1,
        ge=1,
        le=64,
        validation_alias="WALLSEAT_PROCESSES",
        description="Processes that serve; one a core lets a busy office's machine do as much as it can.",
    )
    metrics_port: int = Field(
        default=0,
        ge=0,
        le=65535,
        validation_alias="WALLSEAT_METRICS_PORT",
        description="Where counts are served, on this machine only; 0 for nowhere.",
    )
    open_rate: int = Field(
        default=300,
        ge=0,
        validation_alias="WALLSEAT_OPEN_RATE",
        description="Checks a minute that one address may ask for without signing in; 0 for no limit.",
    )
    slow_ms: int = Field(
        default=250,
        ge=0,
        validation_alias="WALLSEAT_SLOW_MS",
        description="Database statements that take longer are noted in the log; 0 notes none.",
    )

    packages_folder: str = Field(
        default="",
        validation_alias="WALLSEAT_PACKAGES",
        description="Where finished packages are kept; one folder for all processes that serve one database.",
    )

    @property
    def packages(self) -> Path:
        """Where finished packages are kept: where it is said, beside an SQLite file, or in the program's own folder."""
        if self.packages_folder:
            return Path(self.packages_folder)
        path = self.database_url.partition("sqlite:///")[2].partition("?")[0]
        return (Path(path).resolve().parent if path else _data_folder()) / "packages"

    @model_validator(mode="after")
    def _counts_in_one_process(self) -> "Settings":
        if self.metrics_port and self.processes > 1:
            raise ValueError(
                "WALLSEAT_METRICS_PORT goes with one process: each counts for itself. Start several programs with one process "
                "and a port for counts each, or set WALLSEAT_PROCESSES to 1."
            )
        return self

    @model_validator(mode="after")
    def _stays_on_this_machine(self) -> "Settings":
        if self.demo and not _is_loopback(self.host):
            raise ValueError(
                f"HOST {self.host} can be reached by other machines, and in the demo anyone may sign in. "
                "Use 127.0.0.1, or serve without the demo."
            )
        return self


def _is_loopback(host: str) -> bool:
    if host == "localhost":
        return True
    try:
        return ip_address(host).is_loopback
    except ValueError:
        return False
