"""Every part of a page in light, dark, print and grey, for whoever builds pages."""

from typing import Literal

from fastapi import APIRouter, Request
from starlette.responses import Response

from webapp import showcase
from webapp.pages.view import page

router = APIRouter(include_in_schema=False)


@router.get("/components")
def components(request: Request, look: Literal["", "light", "dark", "print", "grey"] = "") -> Response:
    """The component sheet, all four ways of seeing it or the whole page in one."""
    return page(request, "pages/components.html", **showcase.context(look))
