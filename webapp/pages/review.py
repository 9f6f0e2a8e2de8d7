"""A review on the tablet: all places, one place a screen, the decision about the whole, photographs."""

from collections.abc import Mapping

from fastapi import APIRouter, Request
from markupsafe import Markup
from starlette.responses import Response

from webapp.pages import review_view as view
from webapp.pages.ask import Db, Id, JobHere, SeenHere
from webapp.pages.view import page, system
from webapp.services import photos, review_items, reviews
from webapp.services.refusals import Missing
from webapp.services.reviews import SLUGS, Review
from webapp.services.sign_in import Seen
from webapp.store import reading

router = APIRouter(prefix="/jobs/{job_id}/review/{number}", include_in_schema=False)


@router.get("")
def overview(request: Request, db: Db, job: JobHere, seen: SeenHere, number: Id) -> Response:
    """Every place with its three stages, and what is left."""
    with reading(db) as session:
        review = reviews.look(session, seen, job.id, number)
    found = view.lines(review)
    whole = review.spot("", "")
    return page(
        request, "pages/review.html", job=job, lines=found, left=view.left(found), notes=whole.notes, whole=whole,
        **view.common(review, seen),
    )  # fmt: skip


@router.get("/decide")
def decide(request: Request, db: Db, job: JobHere, seen: SeenHere, number: Id, do: str = "accept") -> Response:
    """What would be decided about the whole, before it is."""
    with reading(db) as session:
        review = reviews.look(session, seen, job.id, number)
    return decide_page(request, review, seen, do)


def decide_page(
    request: Request, review: Review, seen: Seen, do: str, status: int = 200, errors: Mapping[str, str] | None = None,
    words: str = "",
) -> Response:  # fmt: skip
    """The step before a decision about the whole. Raises: Missing for another decision."""
    if do not in review_items.WHOLE:
        raise Missing
    found = view.lines(review)
    cells = [(line.place, cell) for line in found for cell in line.cells]
    undecided = {
        stage: sum(cell.word in view.UNDECIDED for _, cell in cells if cell.stage == stage) for stage in SLUGS.values()
    }
    told = [(place, cell) for place, cell in cells if cell.word not in ("accepted", *view.UNDECIDED)]
    return page(
        request, "pages/review_decide.html", status=status, job=review.job, do=do, open_spots=told, undecided=undecided,
        left=view.left(found), errors=errors or {}, words=words, **view.common(review, seen),
    )  # fmt: skip


@router.get("/photos/{photo_id}")
def photo(db: Db, job: JobHere, seen: SeenHere, number: Id, photo_id: Id) -> Response:
    """A photograph, as it was kept."""
    with reading(db) as session:
        row = reviews.here(session, seen, job.id, number)
        found = photos.find(session, row.id, photo_id)
    headers = {"Cache-Control": "private, max-age=86400", "Content-Disposition": f'inline; filename="{photo_id}.jpg"'}
    return Response(found.data, media_type="image/jpeg", headers=headers)


@router.get("/{stage}/{place}")
def place_here(request: Request, db: Db, job: JobHere, seen: SeenHere, number: Id, stage: str, place: str) -> Response:
    """One place in one stage."""
    with reading(db) as session:
        review = reviews.look(session, seen, job.id, number)
    if stage not in SLUGS:
        raise Missing
    return place_page(request, review, seen, place, SLUGS[stage])


def place_page(
    request: Request, review: Review, seen: Seen, key: str, stage: str, status: int = 200,
    errors: Mapping[str, str] | None = None, typed: Mapping[str, str] | None = None,
) -> Response:  # fmt: skip
    """The page of a place, as it stands or as it came back from its form. Raises: Missing."""
    place, units = review.place(key), system(request)
    at = review.places.index(place)
    spot = review.spot(key, stage)
    before, after = (review.places[n] if 0 <= n < len(review.places) else None for n in (at - 1, at + 1))
    return page(
        request, "pages/review_place.html", status=status, job=review.job, place=place, stage=stage, spot=spot,
        states=[review.spot(one.key, stage).state for one in review.places], at=at, station=view.station(place, units),
        drawing=Markup(place.entry.get("drawing", "")), small=Markup(place.entry.get("drawing_small", "")),
        stages=[(one, view.address(review, place, one)) for one in SLUGS.values()],
        fields=view.fields_of(review, place, stage, units, typed or {}, errors or {}), rows=review.lines(place, stage),
        previous=(f"Place {at}", view.address(review, before, stage)) if before else None,
        following=(f"Place {at + 2}", view.address(review, after, stage)) if after else None,
        clock_says=reviews.clock_says, errors=errors or {}, typed=typed or {}, **view.common(review, seen),
    )  # fmt: skip
