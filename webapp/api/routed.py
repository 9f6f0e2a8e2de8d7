"""Every router of the API."""

from webapp.api import (
    attachments,
    checks,
    floor_lines,
    jobs,
    log,
    placing,
    revisions,
    setting_out,
    takeoff,
    wall_types,
    walls,
)

ROUTED = (checks, jobs, wall_types, walls, floor_lines, attachments, setting_out, placing, takeoff, revisions, log)
