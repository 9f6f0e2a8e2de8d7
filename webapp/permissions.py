"""Who may do what: one table, a row for every route."""

from collections.abc import Mapping

DESIGNER, INSPECTOR, OFFICE, ADMINISTRATOR = ROLES = ("designer", "inspector", "office", "administrator")
OUTSIDER = "outsider"  # whoever opened a review link: one revision, nothing else

ANYONE = frozenset[str]()  # without signing in
READ = frozenset(ROLES)
DESIGN = frozenset((DESIGNER, ADMINISTRATOR))
SETTINGS = frozenset((OFFICE, ADMINISTRATOR))
PEOPLE = frozenset((ADMINISTRATOR,))
REVIEW = frozenset((INSPECTOR, ADMINISTRATOR))
SEE_REVIEW = frozenset((*ROLES, OUTSIDER))
DO_REVIEW = frozenset((INSPECTOR, ADMINISTRATOR, OUTSIDER))
LOG = frozenset((OFFICE, ADMINISTRATOR))

# What a person reads here they may read of their own office only: a job of another one is not there.
ROWS: Mapping[str, frozenset[str]] = {
    "GET /": ANYONE,
    "GET /account": READ,
    "POST /account/password": READ,
    "GET /account/second": READ,
    "POST /account/second": READ,
    "POST /account/sessions/{session_id}/end": READ,
    "POST /api/checks": ANYONE,
    "GET /api/jobs/{job_id}": READ,
    "GET /api/kinds": ANYONE,
    "GET /components": ANYONE,
    "GET /jobs": READ,
    "GET /jobs/new": READ,
    "POST /jobs/new": DESIGN,
    "GET /jobs/open": READ,
    "POST /jobs/open": DESIGN,
    "GET /jobs/{job_id}": READ,
    "GET /jobs/{job_id}/attachments.csv": READ,
    "GET /jobs/{job_id}/attachments/new": READ,
    "POST /jobs/{job_id}/attachments/new": DESIGN,
    "GET /jobs/{job_id}/attachments/{tag}": READ,
    "POST /jobs/{job_id}/attachments/{tag}": DESIGN,
    "GET /jobs/{job_id}/attachments/{tag}/copy": READ,
    "POST /jobs/{job_id}/attachments/{tag}/copy": DESIGN,
    "GET /jobs/{job_id}/attachments/{tag}/cut-list.csv": READ,
    "POST /jobs/{job_id}/attachments/{tag}/delete": DESIGN,
    "POST /jobs/{job_id}/attachments/{tag}/restore": DESIGN,
    "POST /jobs/{job_id}/delete": DESIGN,
    "GET /jobs/{job_id}/designs": READ,
    "POST /jobs/{job_id}/designs": DESIGN,
    "POST /jobs/{job_id}/designs/{design_id}/delete": DESIGN,
    "GET /jobs/{job_id}/designs/{design_id}/file": READ,
    "POST /jobs/{job_id}/designs/{design_id}/restore": DESIGN,
    "GET /jobs/{job_id}/edit": READ,
    "POST /jobs/{job_id}/edit": DESIGN,
    "GET /jobs/{job_id}/import": READ,
    "POST /jobs/{job_id}/import": DESIGN,
    "GET /jobs/{job_id}/import/template.csv": READ,
    "POST /jobs/{job_id}/import/{what}/{change}/redo": DESIGN,
    "POST /jobs/{job_id}/import/{what}/{change}/undo": DESIGN,
    "GET /jobs/{job_id}/job.json": READ,
    "GET /jobs/{job_id}/log": READ,
    "POST /jobs/{job_id}/log": LOG,
    "GET /jobs/{job_id}/log.csv": READ,
    "POST /jobs/{job_id}/log/{seq}/correct": LOG,
    "GET /jobs/{job_id}/placing": READ,
    "POST /jobs/{job_id}/placing": DESIGN,
    "GET /jobs/{job_id}/placing.csv": READ,
    "GET /jobs/{job_id}/placing/walls/{wall_id}": READ,
    "POST /jobs/{job_id}/placing/walls/{wall_id}": DESIGN,
    "GET /jobs/{job_id}/placing/walls/{wall_id}.csv": READ,
    "GET /jobs/{job_id}/ready": READ,
    "GET /jobs/{job_id}/ready/ready.csv": READ,
    "GET /jobs/{job_id}/ready/{wall_id}/{level}": READ,
    "POST /jobs/{job_id}/ready/{wall_id}/{level}/go": LOG,
    "POST /jobs/{job_id}/ready/{wall_id}/{level}/points": READ,
    "POST /jobs/{job_id}/restore": DESIGN,
    "GET /jobs/{job_id}/revisions": READ,
    "POST /jobs/{job_id}/revisions": DESIGN,
    "GET /jobs/{job_id}/revisions/{number}": READ,
    "POST /jobs/{job_id}/revisions/{number}/links": DESIGN,
    "POST /jobs/{job_id}/revisions/{number}/links/{link_id}/revoke": DESIGN,
    "GET /jobs/{job_id}/revisions/{number}/revision.json": READ,
    "GET /jobs/{job_id}/setting-out": READ,
    "GET /jobs/{job_id}/setting-out.csv": READ,
    "GET /jobs/{job_id}/setting-out/walls/{wall_id}": READ,
    "GET /jobs/{job_id}/setting-out/walls/{wall_id}.csv": READ,
    "GET /jobs/{job_id}/setting-out/walls/{wall_id}/{tag}": READ,
    "POST /jobs/{job_id}/setting-out/walls/{wall_id}/{tag}": DESIGN,
    "POST /jobs/{job_id}/setting-out/walls/{wall_id}/{tag}/{what}/put/{version}/{word}": DESIGN,
    "POST /jobs/{job_id}/setting-out/walls/{wall_id}/{tag}/{what}/reset": DESIGN,
    "GET /jobs/{job_id}/types": READ,
    "GET /jobs/{job_id}/types/new": READ,
    "POST /jobs/{job_id}/types/new": DESIGN,
    "GET /jobs/{job_id}/types/{type_id}": READ,
    "POST /jobs/{job_id}/types/{type_id}": DESIGN,
    "POST /jobs/{job_id}/types/{type_id}/delete": DESIGN,
    "POST /jobs/{job_id}/types/{type_id}/restore": DESIGN,
    "GET /jobs/{job_id}/walls": READ,
    "GET /jobs/{job_id}/walls/new": READ,
    "POST /jobs/{job_id}/walls/new": DESIGN,
    "GET /jobs/{job_id}/walls/{wall_id}": READ,
    "POST /jobs/{job_id}/walls/{wall_id}": DESIGN,
    "POST /jobs/{job_id}/walls/{wall_id}/delete": DESIGN,
    "POST /jobs/{job_id}/walls/{wall_id}/restore": DESIGN,
    "GET /join": ANYONE,
    "POST /join": ANYONE,
    "GET /log": READ,
    "GET /log.csv": READ,
    "GET /log/files/{sha256}": READ,
    "GET /office/habits": READ,
    "POST /office/habits": SETTINGS,
    "GET /office/hold-points": READ,
    "POST /office/hold-points": SETTINGS,
    "GET /people": PEOPLE,
    "POST /people": PEOPLE,
    "GET /people/people.csv": PEOPLE,
    "GET /people/{person_id}": PEOPLE,
    "POST /people/{person_id}": PEOPLE,
    "POST /people/{person_id}/code": PEOPLE,
    "POST /people/{person_id}/delete": PEOPLE,
    "POST /people/{person_id}/restore": PEOPLE,
    "GET /print/{fingerprint}": ANYONE,
    "GET /proving": ANYONE,
    "GET /proving/cases.csv": ANYONE,
    "GET /r/{token}": ANYONE,
    "POST /r/{token}": ANYONE,
    "GET /setup": ANYONE,
    "POST /setup": ANYONE,
    "GET /sign-in": ANYONE,
    "POST /sign-in": ANYONE,
    "POST /sign-in/demo": ANYONE,
    "POST /sign-out": READ,
    "GET /try": ANYONE,
    "GET /try/{kind_key}": ANYONE,
    "POST /try/{kind_key}": ANYONE,
    "POST /units": ANYONE,
}


def allowed(method: str, path: str) -> frozenset[str] | None:
    """The roles that may use a route; ANYONE where nobody need sign in, None for a route without a row.

    Args: path: as routed, "/jobs/{job_id}".
    """
    return ROWS.get(f"{'GET' if method == 'HEAD' else method} {path}")
