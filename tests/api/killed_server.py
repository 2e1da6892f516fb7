"""A server that dies once between the commit of a push and its reply. Run by test_killed.py as a program.

python -m tests.api.killed_server PORT die|live
"""

from __future__ import annotations

import os
import sys
from unittest import mock
from wsgiref.simple_server import WSGIRequestHandler, make_server

import django
from django.core.wsgi import get_wsgi_application


class Quiet(WSGIRequestHandler):
    def log_message(self, format: str, *args: object) -> None:
        """Nothing: the test reads what the server says."""


def die(*_: object) -> None:
    os._exit(9)


def main(port: int, how: str) -> None:
    django.setup()
    from tests.small_kinds import small_house

    application = get_wsgi_application()
    with small_house(), make_server("127.0.0.1", port, application, handler_class=Quiet) as server:
        if how == "die":
            mock.patch("api.sync._told_push", die).start()
        print("open", flush=True)
        server.serve_forever()


if __name__ == "__main__":
    main(int(sys.argv[1]), sys.argv[2])
