"""A draft's document: written as a submission would freeze it, without being kept."""

import json
from collections.abc import Mapping
from typing import Any

from engine import fields, job_file
from engine.job import plan
from engine.setting_out import Habits
from webapp.submission import document as submission


def document(content: Mapping[str, Any]) -> dict[str, Any]:
    """The document. Args: content: job (its file's JSON text), today, habits (texts), designs, points (of holding, texts)."""
    job = job_file.read(content["job"])
    habits, _ = fields.read(Habits, content["habits"])
    text = submission.write(
        job, plan(job, today=content["today"]), habits or Habits(), content["designs"], content.get("points", ())
    )
    found: dict[str, Any] = json.loads(text)
    return found
