"""What a web server serves. It refuses to serve with a key that everybody knows."""

from __future__ import annotations

import gc
import os
from collections.abc import Iterable, Iterator
from importlib import import_module
from typing import TYPE_CHECKING

from django.core.wsgi import get_wsgi_application

from homestead import settings

if TYPE_CHECKING:
    from wsgiref.types import StartResponse, WSGIEnvironment

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "homestead.settings")
if settings.SECRET_KEY == settings.NO_SECRET:
    raise SystemExit(
        "There is no secret key. At home `python3 manage.py start` makes one; "
        "a host sets ROUNDS_SECRET_KEY to 40 or more characters that nobody can guess."
    )


class AtLeastOnePiece:
    """The body of an answer, with an empty piece put before it.

    PEP 3333 lets an answer with no body (204, 304, to HEAD) be an empty list; hypercorn 0.18 sends the head
    of an answer with its first piece and turns such a one into a 500.
    """

    def __init__(self, body: Iterable[bytes]) -> None:
        self.body = body

    def __iter__(self) -> Iterator[bytes]:
        yield b""
        yield from self.body

    def close(self) -> None:
        if close := getattr(self.body, "close", None):
            close()


_django = get_wsgi_application()
# The first request would load every view otherwise, after what is loaded was put aside.
import_module(settings.ROOT_URLCONF)
# What is loaded by now stays. Python need not look through it again and again for what could be thrown away
# (gc.freeze, library reference); that took as long as all else in a push.
gc.collect()
gc.freeze()
gc.set_threshold(50_000, 20, 20)


def application(environ: WSGIEnvironment, start_response: StartResponse) -> Iterable[bytes]:
    return AtLeastOnePiece(_django(environ, start_response))
