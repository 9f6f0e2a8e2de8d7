"""The job as one JSON document: read strictly, checked in full, upgraded from older versions, written with every unit.

    {"wallseat_job": 2, "name": …, "edition": …, "client": …, "place": …, "notes": …, "site": {…},
     "wall_types": {name: {field: text}},
     "walls": [{"name": …, "line": {field: text}, "storeys": [{"type": name, "height_ft": text}], "openings": [{field: text}],
                "brackets": {level: [station]}, "placing": {field: text}}],
     "floor_lines": [{"name": …, "wall": name, "level": 1, "start": text, "end": text, "inputs": {field: text}}],
     "attachments": [{"tag": "A1", "kind": …, "wall": name, "level": 1, "start": text, "end": text, "inputs": {field: text},
                      "moved": {what: [station]}}],
     "placing": {field: text}}

Every quantity is text with its unit ("9 1/4 in"). What is not known is refused by name, so nothing is dropped in silence.
"""

from engine.job_file.reading import SCHEMA, BadJobFile, Problem, read
from engine.job_file.writing import BARE, FEET_INCHES, with_unit, write

__all__ = ["BARE", "FEET_INCHES", "SCHEMA", "BadJobFile", "Problem", "read", "with_unit", "write"]
