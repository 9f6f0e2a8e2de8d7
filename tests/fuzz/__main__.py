"""`python -m tests.fuzz TARGET [libFuzzer options]`: coverage-guided fuzzing of one parser; `make fuzz` runs each for a while.

It needs atheris, which is not in the lock: it exists for few systems and is large.
"""

import importlib
import sys
from typing import Any

OURS = ["engine", "webapp", "PIL", "openpyxl"]


def main() -> None:
    """Run until an option of libFuzzer ends it (-max_total_time, -runs) or a fault is found."""
    name = sys.argv.pop(1)
    atheris: Any = importlib.import_module("atheris")
    with atheris.instrument_imports(include=OURS):
        targets = importlib.import_module("tests.fuzz.targets").TARGETS
    atheris.Setup(sys.argv, targets[name])
    atheris.Fuzz()


if __name__ == "__main__":
    main()
