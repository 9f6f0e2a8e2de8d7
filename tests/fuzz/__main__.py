"""`python -m tests.fuzz TARGET [libFuzzer options]`: coverage-guided fuzzing of one parser; `make fuzz` runs each for a while.

It needs atheris, which is not in the lock: it exists for few systems and is large.
"""

import importlib
import sys
from typing import Any

from tests.fuzz.targets import TARGETS


def main() -> None:
    """Run until an option of libFuzzer ends it (-atheris_runs, -max_total_time) or a fault is found."""
    name = sys.argv.pop(1)
    atheris: Any = importlib.import_module("atheris")
    atheris.instrument_all()
    atheris.Setup(sys.argv, TARGETS[name])
    atheris.Fuzz()


if __name__ == "__main__":
    main()
