"""Takeoff of a job: what to buy, cut and place."""

from fastapi import APIRouter

router = APIRouter(prefix="/jobs/{job_id}/takeoff", include_in_schema=False)
