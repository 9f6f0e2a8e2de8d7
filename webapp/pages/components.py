"""Every part of a page in light, dark, print and grey, for whoever builds pages."""

from typing import Literal

from fastapi import APIRouter, Request
from starlette.responses import Response

from webapp import showcase
from webapp.pages.view import page, seen
from webapp.permissions import ADMINISTRATOR
from webapp.services.refusals import Missing

router = APIRouter(include_in_schema=False)


@router.get("/components")
def components(request: Request, look: Literal["", "light", "dark", "print", "grey"] = "") -> Response:
    """The component sheet, all four ways of seeing it or the whole page in one: in the demo, and for administrators."""
    reader = seen(request)
    if not request.app.state.demo and (reader is None or reader.role != ADMINISTRATOR):
        raise Missing
    return page(request, "pages/components.html", **showcase.context(look))
