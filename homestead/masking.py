"""Keeps secrets and names of photos out of log lines, whoever writes them."""

from __future__ import annotations

import logging
import re

#: hashes and names of photos (64 hex digits), device tokens (43 characters of URL-safe base64)
SECRETS = re.compile(r"(?<![0-9A-Za-z_-])(?:[0-9a-f]{64}|[0-9A-Za-z_-]{43})(?![0-9A-Za-z_-])")


class Masked(logging.Formatter):
    """The finished text is masked, so that arguments and traces are too."""

    def format(self, record: logging.LogRecord) -> str:
        return SECRETS.sub("…", super().format(record))
