"""The web at home: one process with two doors, http for this computer alone and https for phones."""

from __future__ import annotations

import socket
import sys

from hypercorn.config import Config
from hypercorn.run import run

from homestead import environment as env

#: a photo is at most 12 MB and is refused by its own view; this only keeps the memory bounded
LARGEST_BODY = 16_000_000


def doors() -> Config:
    config = Config()
    config.application_path = "wsgi:homestead.wsgi:application"
    config.insecure_bind = [f"{host}:{env.PORT}" for host in loopback_hosts()]
    config.bind = [f"0.0.0.0:{env.PHONE_PORT}"]
    config.certfile = str(env.CERTIFICATES / "this-computer.crt")
    config.keyfile = str(env.CERTIFICATES / "this-computer.key")
    config.workers = 0  # serve from this very process; the supervisor looks after it
    config.graceful_timeout = 10.0
    config.keep_alive_timeout = 60.0
    config.wsgi_max_body_size = LARGEST_BODY
    config.loglevel = "WARNING"
    config.include_server_header = False
    return config


def loopback_hosts() -> list[str]:
    """Some systems look `localhost` up as IPv6 first; others have no IPv6 at all."""
    try:
        with socket.socket(socket.AF_INET6, socket.SOCK_STREAM) as door:
            door.bind(("::1", 0))
    except OSError:
        return ["127.0.0.1"]
    return ["127.0.0.1", "[::1]"]


if __name__ == "__main__":
    sys.exit(run(doors()))
