"""What the office types once for all its jobs."""

from fastapi import APIRouter

router = APIRouter(prefix="/office", include_in_schema=False)
