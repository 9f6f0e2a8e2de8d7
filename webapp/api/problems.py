"""What services refuse, as the API says it."""

from fastapi import FastAPI, Request
from starlette.responses import JSONResponse, Response

from engine.errors import BadInput
from engine.job_file import BadJobFile
from webapp.problem import IN_USE, about_api, problem
from webapp.services.refusals import Refused, Stale

MOST_PROBLEMS = 100


def answer(error: Exception, method: str, path: str) -> Response:
    """A refusal in JSON."""
    match error:
        case Stale():
            return JSONResponse(problem(409, version=error.version), 409)
        case BadInput():
            return JSONResponse(problem(422, fields={error.field: error.message}), 422)
        case BadJobFile():
            found = error.problems[:MOST_PROBLEMS]
            lines = [{"line": p.line, "path": p.path, "reason": p.reason} for p in found]
            return JSONResponse(problem(422, fields={p.path: p.reason for p in found}, problems=lines), 422)
        case Refused():
            whole = error.errors.get("", "")
            if method == "DELETE" or path.endswith("/restore"):  # nothing was typed: something else stands in the way
                return JSONResponse(problem(409, str(error), error=IN_USE), 409)
            return JSONResponse(problem(422, whole, error.errors), 422)
    raise error


def _refused(request: Request, error: Exception) -> Response:
    if not about_api(request.url.path):
        raise error  # a page that did not foresee it has a fault of its own
    return answer(error, request.method, request.url.path)


def register(app: FastAPI) -> None:
    """Answer every refusal of a service that an API route lets through."""
    for kind in (Refused, Stale, BadInput, BadJobFile):
        app.add_exception_handler(kind, _refused)
