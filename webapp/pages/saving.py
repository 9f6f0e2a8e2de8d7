"""What every form does when it comes back: kept and on, or shown again with everything typed."""

from collections.abc import Callable, Mapping

from starlette.responses import Response

from webapp.services.refusals import Refused, Stale

Errors = Mapping[str, str]
MENDED = (
    "Somebody changed this while you were typing. What you typed is still here; saving again replaces what is kept now."
)
Again = Callable[..., Response]


def save_or_show(save: Callable[[], Response], again: Again, kept_now: Callable[[], tuple[int, Errors]]) -> Response:
    """Save, or show the form again.

    Args:
        save: does the work and leads on.
        again: shows the form; called with errors, status, version and heading.
        kept_now: for a form that has grown stale: the version to go on from, and by field what is kept now where it differs.
    """
    try:
        return save()
    except Refused as refused:
        return again(errors=refused.errors, status=422)
    except Stale:
        version, differing = kept_now()
        if not differing:
            differing = {"": "Nothing you typed differs from it; save again to be sure."}
        return again(errors=differing, status=409, version=version, heading=MENDED)


def differing(typed: Mapping[str, str], kept: Mapping[str, str]) -> dict[str, str]:
    """By field, what is kept now where something else was typed. Both as fields show them."""
    return {
        name: f"Kept now: {kept[name] or 'nothing'}."
        for name, text in typed.items()
        if name in kept and kept[name] != text.strip()
    }
