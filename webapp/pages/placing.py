"""The placing plan of a job and of a wall."""

from fastapi import APIRouter

router = APIRouter(prefix="/jobs/{job_id}/placing", include_in_schema=False)
