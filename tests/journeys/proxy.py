"""A door on loopback between browser and server that can be told to fail, and counts who came through."""

from __future__ import annotations

import contextlib
import http.client
import threading
import time
from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass, field
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from typing import Literal

Fault = Literal["none", "cut_before", "cut_after", "kill_after", "slow", "late", "html", "busy"]

#: not passed on, they belong to one connection
HOP = {"connection", "keep-alive", "transfer-encoding", "upgrade", "te", "trailer", "proxy-connection"}

LOGIN_PAGE = b"<!doctype html><title>Welcome to the guest network</title><p>Accept our terms to go on."


@dataclass
class Passed:
    """One request that reached the door, and what was done with it."""

    method: str
    path: str
    fault: Fault


@dataclass
class Door:
    """Listens on `port` and passes requests on to `server_port`, unless `fault_for` says otherwise.

    fault_for(method, path) is asked for every request: `cut_before` drops it unseen, `cut_after` lets the
    server do its work and drops the reply, `slow` waits two seconds (`late` a third of one), `html` answers
    200 with a login page, `busy` answers 503. `kill_after` calls `kill` once the server has done its work,
    then drops the reply.
    """

    server_port: int
    fault_for: Callable[[str, str], Fault] = lambda method, path: "none"
    kill: Callable[[], None] = lambda: None
    passed: list[Passed] = field(default_factory=list)
    _httpd: ThreadingHTTPServer | None = None

    @property
    def port(self) -> int:
        assert self._httpd
        return int(self._httpd.server_address[1])

    @property
    def url(self) -> str:
        return f"http://localhost:{self.port}"

    def open(self) -> Door:
        self._httpd = ThreadingHTTPServer(("127.0.0.1", 0), _request_class(self))
        self._httpd.daemon_threads = True
        threading.Thread(target=self._httpd.serve_forever, daemon=True).start()
        return self

    def close(self) -> None:
        assert self._httpd
        self._httpd.shutdown()
        self._httpd.server_close()

    def count(self, part: str = "/api/") -> int:
        return sum(part in one.path for one in self.passed)

    def faults(self) -> Counter[str]:
        return Counter(one.fault for one in self.passed)


def _request_class(door: Door) -> type[BaseHTTPRequestHandler]:
    class Request(BaseHTTPRequestHandler):
        protocol_version = "HTTP/1.1"

        def log_message(self, *ignored: object) -> None:
            """The door keeps its own book, `passed`."""

        def _pass(self) -> None:
            fault = door.fault_for(self.command, self.path)
            door.passed.append(Passed(self.command, self.path, fault))
            body = self.rfile.read(int(self.headers.get("Content-Length") or 0))
            if fault == "cut_before":
                self._cut()
            elif fault == "html":
                self._answer(200, [("Content-Type", "text/html")], LOGIN_PAGE)
            elif fault == "busy":
                self._answer(503, [("Retry-After", "1"), ("Content-Type", "text/plain")], b"busy")
            else:
                self._pass_on(body, fault)

        def _pass_on(self, body: bytes, fault: Fault) -> None:
            time.sleep({"slow": 2.0, "late": 0.3}.get(fault, 0.0))
            onward = http.client.HTTPConnection("127.0.0.1", door.server_port, timeout=30)
            try:
                headers = {k: v for k, v in self.headers.items() if k.lower() not in HOP}
                onward.request(self.command, self.path, body, headers)
                reply = onward.getresponse()
                content = reply.read()
            except OSError:
                self._cut()
                return
            finally:
                onward.close()
            if fault == "kill_after":
                door.kill()
            if fault in ("cut_after", "kill_after"):
                self._cut()
                return
            kept = [(k, v) for k, v in reply.getheaders() if k.lower() not in HOP | {"content-length"}]
            self._answer(reply.status, kept, content)

        def _answer(self, status: int, headers: list[tuple[str, str]], content: bytes) -> None:
            self.send_response_only(status)
            for name, value in headers:
                self.send_header(name, value)
            self.send_header("Content-Length", str(len(content)))
            self.end_headers()
            if self.command != "HEAD":
                with contextlib.suppress(OSError):
                    self.wfile.write(content)

        def _cut(self) -> None:
            self.close_connection = True
            with contextlib.suppress(OSError):
                self.connection.shutdown(2)

        do_GET = do_HEAD = do_POST = do_PUT = do_DELETE = do_PATCH = _pass  # noqa: N815

    return Request
