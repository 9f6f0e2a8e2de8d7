"""The one place that asks what day it is."""

from datetime import date


def today() -> str:
    """The server's day, as "2026-05-27"."""
    return date.today().isoformat()
