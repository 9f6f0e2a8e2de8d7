"""Floor lines of a job: typed, changed, put away, and how each could be carried."""

from fastapi import APIRouter

router = APIRouter(prefix="/jobs/{job_id}/floor-lines", include_in_schema=False)
