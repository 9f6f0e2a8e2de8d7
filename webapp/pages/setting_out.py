"""Setting out: stations along every wall of a job."""

from fastapi import APIRouter

router = APIRouter(prefix="/jobs/{job_id}/setting-out", include_in_schema=False)
