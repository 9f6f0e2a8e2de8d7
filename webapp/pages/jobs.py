"""Jobs: the list, and a job's own details."""

from collections.abc import Mapping

from fastapi import APIRouter, Request
from starlette.responses import Response

from engine.editions import EDITIONS, US_2021
from engine.fields import specs
from engine.placed import Site
from engine.units import System
from webapp.forms.quantities import keep_all, shown_all
from webapp.models import Job
from webapp.pages.ask import Db, Form, Id, JobHere, List, Posted, SeenHere
from webapp.pages.saving import differing, save_or_show
from webapp.pages.view import lead_on, page, system, with_query
from webapp.services import jobs
from webapp.services.listing import USUAL, Part
from webapp.services.sign_in import Seen
from webapp.store import reading

router = APIRouter(prefix="/jobs", include_in_schema=False)
DETAILS = ("name", "client", "place", "notes", "edition")
SITE = specs(Site)


@router.get("")
def job_list(request: Request, db: Db, seen: SeenHere, wanted: List) -> Response:
    """The jobs, found and sorted."""
    with reading(db) as session:
        found = jobs.page(session, seen.office_id, wanted)
    return page(
        request, "pages/jobs.html", part="pages/parts/jobs_list.html", found=found, wanted=wanted, pages=_pages(found)
    )


def _pages(found: Part[jobs.JobRow]) -> dict[str, str]:
    """Ways to the parts before and after, and to all of it as a table."""
    wanted = found.wanted
    asks = {"q": wanted.q, "sort": wanted.sort, "size": wanted.size if wanted.size != USUAL else ""}
    return {
        "previous": with_query("/jobs", asks | {"page": wanted.page - 1}) if wanted.page > 1 else "",
        "next": with_query("/jobs", asks | {"page": wanted.page + 1}) if found.more else "",
        "csv": with_query("/jobs.csv", asks | {"size": ""}),
    }


def _shown(job: Job | None, units: System) -> dict[str, str]:
    """A job's texts as its form shows them; those of a new job without one."""
    if job is None:
        return dict.fromkeys(DETAILS, "") | {"edition": US_2021.key} | shown_all(SITE, {}, units)
    return {name: getattr(job, name) for name in DETAILS} | shown_all(SITE, job.site, units)


def _form(
    request: Request,
    job: Job | None,
    values: Mapping[str, str],
    units: System,
    errors: Mapping[str, str] | None = None,
    status: int = 200,
    version: int | None = None,
    heading: str = "",
) -> Response:
    labels = {"name": "Name", "client": "Client", "place": "Place", "notes": "Notes", "edition": "Code editions"}
    return page(
        request,
        "pages/job_form.html",
        status=status,
        job=job,
        units=units,
        values=values,
        errors={name or "name": message for name, message in (errors or {}).items()},
        heading=heading,
        labels=labels | {s.name: s.label for s in SITE},
        editions=[(e.key, f"{e.key}: {', '.join(e.titles.values())}") for e in EDITIONS.values()],
        site=SITE,
        version=version if version is not None else (job.version if job else 0),
    )


@router.get("/new")
def new_job(request: Request) -> Response:
    """An empty form."""
    units = system(request)
    return _form(request, None, _shown(None, units), units)


@router.post("/new")
def make_job(request: Request, db: Db, seen: SeenHere, form: Form) -> Response:
    """Keep a new job and go to it."""
    return _save(request, db, seen, form, None)


@router.get("/{job_id}/edit")
def edit_job(request: Request, job: JobHere) -> Response:
    """A job's details in a form."""
    units = system(request)
    return _form(request, job, _shown(job, units), units)


@router.post("/{job_id}/edit")
def change_job(request: Request, db: Db, seen: SeenHere, job: JobHere, form: Form) -> Response:
    """Keep a job's details."""
    return _save(request, db, seen, form, job)


def _save(request: Request, db: Db, seen: Seen, form: Posted, job: Job | None) -> Response:
    units = form.system()
    values = _shown(job, units) | {name: form[name] for name in (*DETAILS, *(s.name for s in SITE)) if name in form}

    def save() -> Response:
        site = keep_all(SITE, values, units, job.site if job else None)
        job_id = jobs.save(db, seen.office_id, values, site, job.id if job else 0, form.version())
        return lead_on(f"/jobs/{job_id}", "Saved." if job else "The job is made. Add a wall type, then a wall.")

    def kept_now() -> tuple[int, dict[str, str]]:
        with reading(db) as session:
            current = jobs.get(session, job.id if job else 0)
        return current.version, differing(values, _shown(current, units))

    return save_or_show(save, lambda **again: _form(request, job, values, units, **again), kept_now)


@router.post("/{job_id}/delete")
def delete_job(db: Db, job_id: Id) -> Response:
    """Put a job away."""
    name = jobs.put_away(db, job_id)
    return lead_on("/jobs", f"{name} is deleted.", f"/jobs/{job_id}/restore")


@router.post("/{job_id}/restore")
def restore_job(db: Db, job_id: Id) -> Response:
    """Bring it back."""
    name = jobs.bring_back(db, job_id)
    return lead_on(f"/jobs/{job_id}", f"{name} is back.")
