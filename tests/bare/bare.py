#!/usr/bin/env python3
"""Both commands of the README on a bare Debian 12: python3, python3-venv, an ordinary user, empty caches.

    sudo python3 tests/bare/bare.py [--only start] [--keep]

Makes a root folder with debootstrap, copies a clean clone of the last commit into it, and there runs `start`
(until the page is served and the invented household is there), `start` again, and `check-all`. Prints how
long each took. Needs root, debootstrap, git and the network; the way to the package registries is copied from
this machine.
"""

from __future__ import annotations

import argparse
import contextlib
import http.cookiejar
import json
import os
import re
import shutil
import signal
import subprocess
import sys
import tempfile
import time
import urllib.request
from collections.abc import Callable
from pathlib import Path

BASE = Path(__file__).resolve().parents[2]
HOME = "/home/keeper"
TREE = f"{HOME}/rounds"
PAGE = "http://localhost:8420"
SUITE = "bookworm"
#: how this machine reaches the registries: files, and settings by the start of their name
COPIED = ["/etc/resolv.conf", "/etc/hosts", "/etc/pip.conf", "/etc/npmrc", "/usr/etc/npmrc"]
COPIED += ["/etc/ssl/certs/ca-certificates.crt"]
PASSED = re.compile(
    r"(PIP_(INDEX|EXTRA|CERT|TRUSTED|PROXY|DEFAULT)|npm_config_|NODE_EXTRA_CA|SSL_CERT)\w*|\w+_proxy", re.I
)


def main() -> int:
    words = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    words.add_argument("--only", choices=["start"], help="leave check-all out")
    words.add_argument("--keep", action="store_true", help="leave the root folder, and say where it is")
    words.add_argument("--inside", help=argparse.SUPPRESS)
    asked = words.parse_args()
    if asked.inside:
        return prove(Path(asked.inside), with_checks=asked.only is None)
    folder = Path(tempfile.mkdtemp(prefix="rounds-bare-"))
    folder.chmod(0o755)
    # Mounts made inside are gone with the namespace, so the folder can be deleted without care.
    again = ["unshare", "--mount", sys.executable, __file__, "--inside", str(folder), *sys.argv[1:]]
    code = subprocess.run(again).returncode
    if asked.keep:
        print(f"kept: {folder}")
    else:
        shutil.rmtree(folder)
    return code


def prove(root: Path, with_checks: bool) -> int:
    times: dict[str, float] = {}
    timed("debootstrap", times, lambda: make_root(root))
    copy_in(root)
    timed("first start", times, lambda: start(root))
    timed("second start", times, lambda: start(root))
    code = timed("check-all", times, lambda: check_all(root)) if with_checks else 0
    print("\nOn a bare Debian 12:")
    for what, seconds in times.items():
        print(f"  {what:<14} {seconds:7.1f} s")
    print(f"  size           {used(root)}")
    return code


def timed(what: str, times: dict[str, float], work: Callable[[], float | int]) -> int:
    """`work` may tell its own seconds, as `start` does, which is stopped after it was seen to run."""
    print(f"\n== {what}", flush=True)
    began = time.monotonic()
    told = work()
    times[what] = told if isinstance(told, float) else time.monotonic() - began
    return told if isinstance(told, int) else 0


def make_root(root: Path) -> int:
    sources = "".join(
        path.read_text() for path in Path("/etc/apt").glob("sources.list*/**/*") if path.is_file()
    )
    sources += Path("/etc/apt/sources.list").read_text() if Path("/etc/apt/sources.list").exists() else ""
    mirror = re.search(r"^(?:URIs:|deb(?: \[.*\])?)\s+(\S+/debian/?)(?=\s|$)", sources, re.MULTILINE)
    if mirror is None:
        sys.exit("No Debian mirror was found in /etc/apt.")
    command = [
        "debootstrap",
        "--variant=minbase",
        "--include=python3,python3-venv",
        SUITE,
        str(root),
        mirror[1],
    ]
    log = root.with_suffix(".log")
    with log.open("w") as out:
        if subprocess.run(command, stdout=out, stderr=subprocess.STDOUT).returncode:
            sys.exit(log.read_text()[-2000:])
    log.unlink()
    return 0


def copy_in(root: Path) -> None:
    for name in COPIED:
        if Path(name).exists():
            inside = root / name.lstrip("/")
            inside.parent.mkdir(parents=True, exist_ok=True)
            shutil.copyfile(name, inside)
    run(["mount", "-t", "proc", "proc", str(root / "proc")])
    run(["mount", "--rbind", "/dev", str(root / "dev")])
    run(["chroot", str(root), "useradd", "--create-home", "--shell", "/bin/bash", "keeper"])
    npmrc = Path.home() / ".npmrc"
    if npmrc.exists():
        shutil.copyfile(npmrc, root / HOME.lstrip("/") / ".npmrc")
    run(["git", "clone", "--quiet", "--no-hardlinks", f"file://{BASE}", str(root / TREE.lstrip("/"))])
    run(["chroot", str(root), "chown", "-R", "keeper:keeper", HOME])


def inside(root: Path, *command: str) -> list[str]:
    """As the ordinary user, with nothing of this machine's environment but the way to the registries."""
    kept = [f"{name}={value}" for name, value in os.environ.items() if PASSED.fullmatch(name)]
    own = [f"HOME={HOME}", "USER=keeper", "PATH=/usr/local/bin:/usr/bin:/bin", "LANG=C.UTF-8", *kept]
    there = f'cd {TREE} && exec "$@"'
    return [
        "chroot",
        "--userspec=keeper:keeper",
        str(root),
        "/usr/bin/env",
        "-i",
        *own,
        "sh",
        "-c",
        there,
        "sh",
        *command,
    ]


def start(root: Path) -> float:
    """Seconds until the page is served, and the invented household is there."""
    began = time.monotonic()
    running = subprocess.Popen(inside(root, "python3", "manage.py", "start"))
    try:
        wait_until_served(running, until=began + 600)
        seconds = time.monotonic() - began
        print(f"served, with the household {household_name()!r}", flush=True)
        time.sleep(3)  # the jobs come up too
    finally:
        running.send_signal(signal.SIGTERM)
        code = running.wait(timeout=30)
    if code or (left := leftovers(root)):
        sys.exit(f"`start` ended with {code}; still running: {left if not code else 'not looked'}")
    return seconds


def wait_until_served(running: subprocess.Popen[bytes], until: float) -> None:
    while time.monotonic() < until:
        if running.poll() is not None:
            sys.exit(f"`start` ended by itself with {running.returncode}.")
        try:
            with urllib.request.urlopen(PAGE, timeout=2) as page:
                if b"<title>Winter Rounds</title>" in page.read():
                    return
        except OSError:
            time.sleep(0.1)
    sys.exit("`start` did not serve the page in ten minutes.")


def household_name() -> str:
    """As a browser on this computer gets it: the invented household opens without a code."""
    kept = http.cookiejar.CookieJar()
    browser = urllib.request.build_opener(urllib.request.HTTPCookieProcessor(kept))
    browser.open(f"{PAGE}/api/v1/csrf", timeout=10).close()
    token = next(cookie.value for cookie in kept if cookie.name == "csrftoken")
    headers = {"Content-Type": "application/json", "X-CSRFToken": str(token)}
    with browser.open(urllib.request.Request(f"{PAGE}/api/v1/demo", b"{}", headers), timeout=30) as told:
        household = json.load(told)["household"]
    if not household["demo"]:
        sys.exit(f"The household that opened is not the invented one: {household}")
    return str(household["name"])


def leftovers(root: Path) -> list[str]:
    """Programs that run inside the root folder."""
    found = []
    for place in Path("/proc").glob("[0-9]*"):
        with contextlib.suppress(OSError):
            if os.readlink(place / "root") == str(root):
                found.append(f"{place.name} {(place / 'comm').read_text().strip()}")
    return found


def check_all(root: Path) -> int:
    return subprocess.run(inside(root, "python3", "manage.py", "check-all")).returncode


def used(root: Path) -> str:
    names = [f"{TREE}/.venv", f"{TREE}/frontend/node_modules", TREE]
    sizes = subprocess.run(
        ["du", "-sm", *[str(root / name.lstrip("/")) for name in names]], capture_output=True, text=True
    ).stdout
    return ", ".join(f"{Path(line.split()[1]).name} {line.split()[0]} MB" for line in sizes.splitlines())


def run(command: list[str]) -> None:
    subprocess.run(command, check=True)


if __name__ == "__main__":
    sys.exit(main())
