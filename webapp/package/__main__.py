"""`python -m webapp.package FILE`: an order on standard input, its PDF into the file, progress on standard output, line by line.

The last line says the most room any of its processes took, in kilobytes.
"""

import gc
import logging
import os
import resource
import sys
from contextlib import suppress
from pathlib import Path

from webapp.package.build import PartFailed, build
from webapp.package.order import Order

MOST_BYTES = 3 * 2**30  # of addresses, for each process; a package of any size takes a fraction
REFUSED = 3  # exit code: a part could not be typeset


def main() -> int:
    """Build one order. Returns: 0, or `REFUSED` with the reason on standard error."""
    gc.disable()  # short-lived, and what they make has no cycles to speak of
    os.environ["RAYON_NUM_THREADS"] = "1"  # a part is typeset by one thread: each core has a part of its own
    resource.setrlimit(resource.RLIMIT_AS, (MOST_BYTES, MOST_BYTES))
    logging.basicConfig(stream=sys.stderr, level=logging.WARNING)

    def said(done: int, total: int) -> None:
        print(done, total, flush=True)

    try:
        with Path(sys.argv[1]).open("wb") as out:
            build(Order.read(sys.stdin), out, said)
    except PartFailed as error:
        print(error, file=sys.stderr)
        return REFUSED
    print("peak", max(_own_peak(), resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss), flush=True)
    return 0


def _own_peak() -> int:
    """Of this process [kB]; the system's usual count would have in it what the process it was started from took."""
    with suppress(OSError), open("/proc/self/status") as status:
        return next(int(line.split()[1]) for line in status if line.startswith("VmHWM"))
    return 0


if __name__ == "__main__":
    sys.exit(main())
