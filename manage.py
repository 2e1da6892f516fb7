#!/usr/bin/env python3
"""Winter Rounds. `python3 manage.py start` runs it, `python3 manage.py check-all` tests it.

Both need Python 3.11 and nothing else: what is missing is made first (`homestead/jobs/prepare.py`).
"""

import os
import sys

WRONG_PYTHON = (
    "Winter Rounds needs Python 3.11 or newer; this is %d.%d.\n"
    "Run it with the newer one, for example: python3.11 manage.py start"
)


def main() -> None:
    if sys.version_info < (3, 11):  # noqa: UP036 (an older Python must get this far to be told)
        sys.exit(WRONG_PYTHON % sys.version_info[:2])
    from homestead.jobs import prepare

    prepare.for_command(sys.argv)
    if sys.argv[1:2] == ["start"]:
        from homestead.jobs import start

        sys.exit(start.main(sys.argv[2:]))
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "homestead.settings")
    from django.core.management import execute_from_command_line

    sys.argv[1:2] = [name.replace("-", "_") for name in sys.argv[1:2]]
    execute_from_command_line(sys.argv)


if __name__ == "__main__":
    main()
