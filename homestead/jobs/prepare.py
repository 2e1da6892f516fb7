"""Makes what a command needs: the environment, the packages of its lock, Node, the built pages.

Only the standard library is imported here, since this runs before anything is installed.
"""

from __future__ import annotations

import hashlib
import json
import os
import platform
import shutil
import subprocess
import sys
import time
from collections.abc import Callable, Iterable, Sequence
from pathlib import Path
from typing import Any

from homestead.jobs import node, preflight

BASE = Path(__file__).resolve().parents[2]
VENV = BASE / ".venv"
PYTHON = VENV / "bin" / "python"
LOCKS = BASE / ".locks"
FRONT = BASE / "frontend"
#: folders of the frontend that are made, not written
MADE = {"node_modules", "dist", "dist.next", "dist.old"}
BUILT = FRONT / "dist.json"
QUIET = ["--logLevel", "error"]

#: the locks a command needs, pages built or not
NEEDS = {
    "start": (("run", "front"), True),
    "build": (("run", "front"), True),
    "check-all": (("check",), True),
}

#: pure Python, published as source only; used by checks alone
SOURCE_ONLY = "autograd-gamma,psychrolib"
PIP = [
    "-m", "pip", "install", "--quiet", "--disable-pip-version-check", "--no-input",
    "--require-hashes", "--only-binary", ":all:",
]  # fmt: skip

NO_VENV = (
    "This Python cannot make an environment: its 'venv' part is missing.\n"
    "On Debian and Ubuntu: apt install python3-venv. Then run the same command again."
)
NO_PACKAGES = (
    "The packages could not be installed; what went wrong stands above.\n"
    "The first start needs the network and about 1.5 GB of room. Run the same command again to go on."
)


def for_command(argv: Sequence[str]) -> None:
    """Return inside a complete `.venv`, or stop with a sentence.

    A host that installs the packages itself sets ROUNDS_PREPARED=1.
    """
    if os.environ.get("ROUNDS_PREPARED"):
        return
    if problem := preflight.wrong_system(platform.system()):
        sys.exit(problem)
    inside = Path(sys.prefix).resolve() == VENV.resolve()
    locks, pages = NEEDS.get(argv[1] if len(argv) > 1 else "", (("run",), False))
    if pages or not inside:
        ensure_environment(locks)
    if not inside:
        run_again_inside(argv)
    if pages:
        ensure_pages()
    if argv[1:2] == ["build"]:
        sys.exit(0)


def run_again_inside(argv: Sequence[str]) -> None:
    os.execv(PYTHON, [str(PYTHON), *argv])


def digest(paths: Iterable[Path]) -> str:
    """SHA-256 over names and contents, so that a renamed file counts as changed too."""
    whole = hashlib.sha256()
    for path in paths:
        content = path.read_bytes()
        whole.update(f"{path.relative_to(BASE).as_posix()} {len(content)}\n".encode())
        whole.update(content)
    return whole.hexdigest()


def _mark(locks: Sequence[str]) -> str:
    return f"{'+'.join(locks)} {digest(LOCKS / f'{name}.txt' for name in locks)}"


def is_complete(locks: Sequence[str]) -> bool:
    """Was this lock, or the one of the checks, which holds all others, the last to be installed whole?"""
    mark = VENV / "complete"
    kept = mark.read_text() if mark.exists() and PYTHON.exists() else ""
    return kept in (_mark(locks), _mark(("check",)), _mark(("run", "front")) if locks == ("run",) else "-")


def ensure_environment(locks: Sequence[str]) -> None:
    if is_complete(locks):
        return
    _refuse_without_venv()
    if not _has_pip():
        _refuse_without_room()
        _timed("made the environment", _make_environment)
    (VENV / "complete").unlink(missing_ok=True)
    lists = [part for name in locks for part in ("-r", str(LOCKS / f"{name}.txt"))]
    lists += ["--no-binary", SOURCE_ONLY] if "check" in locks else []
    _timed("installed the packages", lambda: _run([str(PYTHON), *PIP, *lists], NO_PACKAGES))
    (VENV / "complete").write_text(_mark(locks))


def _refuse_without_venv() -> None:
    """Asked before anything is made: `-m venv` without it leaves a half-made folder."""
    try:
        import ensurepip  # noqa: F401
        import venv  # noqa: F401
    except ImportError:
        sys.exit(NO_VENV)


def _refuse_without_room() -> None:
    if problem := preflight.folder_not_writable(BASE) or preflight.disk_full(BASE, preflight.ROOM_TO_INSTALL):
        sys.exit(problem)


def _has_pip() -> bool:
    """False for an environment that is missing, half made, or whose Python has gone."""
    if not PYTHON.exists():
        return False
    return subprocess.run([str(PYTHON), "-c", "import pip"], stderr=subprocess.DEVNULL).returncode == 0


def _make_environment() -> None:
    import venv

    try:
        venv.EnvBuilder(with_pip=True, clear=True, symlinks=True).create(VENV)
    except (OSError, subprocess.CalledProcessError) as problem:
        sys.exit(f"The environment {VENV} could not be made: {problem}")


def sources() -> list[Path]:
    """All that the built pages are made from."""
    found: list[Path] = []
    for folder, folders, names in os.walk(FRONT):
        folders[:] = [name for name in folders if name not in MADE]
        found += [Path(folder) / name for name in names]
    return sorted(path for path in found if path != BUILT)


def ensure_pages() -> None:
    """Install the frontend's packages and build it, each only when what it is made from has changed."""
    lock, kept = FRONT / "package-lock.json", FRONT / "node_modules" / ".complete"
    if not kept.exists() or kept.read_text() != digest([lock]):
        _timed("installed the pages' packages", lambda: node.npm(["ci", "--loglevel=error"], FRONT))
        kept.write_text(digest([lock]))
    want = digest(sources())
    if not (FRONT / "dist" / "index.html").exists() or _built()["made_from"] != want:
        _timed("built the pages", lambda: _build(want))


def _built() -> dict[str, Any]:
    """What stands in `dist`: the hash of its sources, and the parts of this build and the two before."""
    return json.loads(BUILT.read_text()) if BUILT.exists() else {"made_from": "", "builds": []}


def _build(made_from: str) -> None:
    """Build beside the pages in use, keep the parts of the two builds before, then change over."""
    fresh, now, old = FRONT / "dist.next", FRONT / "dist", FRONT / "dist.old"
    node.run(
        ["node_modules/vite/bin/vite.js", "build", "--outDir", fresh.name, "--emptyOutDir", *QUIET], FRONT
    )
    own = sorted(path.name for path in (fresh / "assets").glob("*"))
    before = _built()["builds"][-2:]
    _keep_parts({name for build in before for name in build} - set(own), now, fresh)
    shutil.rmtree(old, ignore_errors=True)
    if now.exists():
        now.rename(old)
    fresh.rename(now)
    BUILT.write_text(json.dumps({"made_from": made_from, "builds": [*before, own]}))
    shutil.rmtree(old, ignore_errors=True)


def _keep_parts(names: Iterable[str], now: Path, fresh: Path) -> None:
    """A page opened before the change still asks for its own parts."""
    for name in names:
        if (now / "assets" / name).exists():
            shutil.copy2(now / "assets" / name, fresh / "assets" / name)


def _run(command: list[str], sentence: str) -> None:
    if subprocess.run(command).returncode:
        sys.exit(f"\n{sentence}")


def _timed(what: str, work: Callable[[], None]) -> None:
    began = time.monotonic()
    work()
    print(f"{what} in {time.monotonic() - began:.1f} s", flush=True)
