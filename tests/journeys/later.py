"""A server whose day a test sets: hypercorn, with the clock of the code moved on by what a file says.

Hours are added to what `timezone.now` tells, which is the only clock the code reads.
"""

from __future__ import annotations

import datetime as dt
import os
import sys
from pathlib import Path

from django.utils import timezone
from hypercorn.__main__ import main

#: names the file with the seconds to add
MOVED_ON = "ROUNDS_TEST_MOVED_ON"
_now = timezone.now


def moved_on() -> dt.datetime:
    """The real time, and the seconds the test put into the file."""
    return _now() + dt.timedelta(seconds=float(Path(os.environ[MOVED_ON]).read_text()))


if __name__ == "__main__":
    timezone.now = moved_on
    sys.exit(main())
