#!/usr/bin/env python3
"""Winter Rounds. `python3 manage.py start` runs it, `python3 manage.py check-all` tests it."""

import os
import sys

if __name__ == "__main__":
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "homestead.settings")
    from django.core.management import execute_from_command_line

    execute_from_command_line(sys.argv)
