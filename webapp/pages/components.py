"""Every part of a page in light, dark, print and grey, for whoever builds pages."""

from fastapi import APIRouter, Request
from starlette.responses import Response

from webapp import showcase
from webapp.pages.view import page

router = APIRouter(include_in_schema=False)


@router.get("/components")
def components(request: Request) -> Response:
    """The component sheet."""
    return page(request, "pages/components.html", **showcase.context())
