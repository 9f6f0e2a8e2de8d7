"""Why a service did not do what was asked. Nothing has been changed when one of these is raised."""

from collections.abc import Mapping


class Missing(Exception):
    """There is no such thing, or it is put away."""


class Refused(Exception):
    """Entries that can't be used. Args: errors: field -> what to enter instead; the field "" for the whole."""

    def __init__(self, errors: Mapping[str, str]) -> None:
        super().__init__("; ".join(errors.values()))
        self.errors = dict(errors)


class Stale(Exception):
    """Somebody changed it since the form was made. Args: version: the state to make the next form from."""

    def __init__(self, version: int) -> None:
        super().__init__("changed meanwhile")
        self.version = version
