"""Static files: kept for a year by browsers that asked by fingerprint, asked about again by the others."""

from urllib.parse import parse_qs

from starlette.responses import Response
from starlette.staticfiles import StaticFiles
from starlette.types import Scope


class Fingerprinted(StaticFiles):
    """Serves a folder. An address with "v" names one content for ever."""

    async def get_response(self, path: str, scope: Scope) -> Response:
        """The file, with how long it may be kept."""
        response = await super().get_response(path, scope)
        if response.status_code in (200, 304):
            asked = parse_qs(scope["query_string"].decode("latin-1"))
            response.headers["cache-control"] = "public, max-age=31536000, immutable" if "v" in asked else "no-cache"
        return response
