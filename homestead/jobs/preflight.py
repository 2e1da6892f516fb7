"""What must hold before anything is started, and the sentence for each thing that does not.

Only the standard library is imported here. Each check returns a sentence, or None when all is well.
"""

from __future__ import annotations

import shutil
import socket
import subprocess
import tempfile
from collections.abc import Iterator
from pathlib import Path

#: room for the database, its journal and a few days of photos
ROOM_TO_RUN = 300_000_000
#: Python and frontend packages, as installed
ROOM_TO_INSTALL = 1_500_000_000

NETWORK_DISKS = {
    "nfs",
    "nfs4",
    "cifs",
    "smbfs",
    "smb3",
    "afs",
    "afpfs",
    "webdav",
    "davfs",
    "ceph",
    "glusterfs",
    "lustre",
}
#: the same through FUSE, whose type reads `fuse.sshfs` and the like
NETWORK_FUSE = {"sshfs", "rclone", "s3fs", "gcsfuse", "davfs2", "glusterfs", "smbnetfs", "curlftpfs"}


def wrong_system(name: str) -> str | None:
    if name == "Windows":
        return "Winter Rounds runs on Linux and macOS. On Windows, run it inside WSL."
    return None


def folder_not_writable(folder: Path) -> str | None:
    """Makes the folder where it is missing, since that is what the next step would do."""
    try:
        folder.mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryFile(dir=folder):
            return None
    except OSError as problem:
        return (
            f"The folder {folder} cannot be written to ({problem.strerror}).\n"
            "Give it to the user who starts Winter Rounds. Data may lie elsewhere: ROUNDS_DATA=/some/folder"
        )


def disk_full(folder: Path, needed: int, free: int | None = None) -> str | None:
    room = shutil.disk_usage(folder).free if free is None else free
    if room >= needed:
        return None
    return (
        f"The disk that holds {folder} is nearly full: {room // 1_000_000} MB are free, "
        f"{needed // 1_000_000} MB are needed.\nMake room, then run the same command again."
    )


def network_disk(folder: Path, mounts: str | None = None) -> str | None:
    """SQLite can lose a database on a disk that another computer serves: its locks are not kept there."""
    kind = disk_kind(folder, _mounts() if mounts is None else mounts)
    family, _, through = kind.partition(".")
    if kind not in NETWORK_DISKS and not (family == "fuse" and through in NETWORK_FUSE):
        return None
    return (
        f"The folder {folder} is on a network disk ({kind}), where a database can be damaged.\n"
        "Keep it on a disk of this computer: ROUNDS_DATA=/some/local/folder"
    )


def disk_kind(folder: Path, mounts: str) -> str:
    """The file system that holds `folder`, by /proc/mounts or macOS's `mount`; '' if unknown."""
    best = ("", "")
    for place, kind in _mount_lines(mounts):
        inside = folder == Path(place) or Path(place) in folder.parents
        if inside and len(place) >= len(best[0]):
            best = (place, kind)
    return best[1]


def _mount_lines(mounts: str) -> Iterator[tuple[str, str]]:
    for line in mounts.splitlines():
        if " on /" in line and " (" in line:
            place, _, rest = line.partition(" on ")[2].rpartition(" (")
            yield place, rest.partition(",")[0].rstrip(")")
        elif len(parts := line.split()) >= 3:
            yield parts[1].replace("\\040", " "), parts[2]


def _mounts() -> str:
    listed = Path("/proc/mounts")
    if listed.exists():
        return listed.read_text(errors="replace")
    found = shutil.which("mount")
    return subprocess.run([found], capture_output=True, text=True).stdout if found else ""


def port_taken(port: int, setting: str) -> str | None:
    """Connects first: a server that shares ports would start silently and both would answer."""
    try:
        with socket.create_connection(("127.0.0.1", port), timeout=1):
            pass
    except OSError:
        return _port_refused(port, setting)
    return (
        f"Port {port} of this computer is taken: Winter Rounds runs already, or another program uses it.\n"
        f"Open http://localhost:{port} to see. Stop it, or choose another port: {setting}={port + 10}"
    )


def _port_refused(port: int, setting: str) -> str | None:
    """Nobody listens, yet it may not be ours: ports below 1024 belong to root."""
    try:
        with socket.socket(socket.AF_INET, socket.SOCK_STREAM) as door:
            door.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
            door.bind(("127.0.0.1", port))
    except OSError as problem:
        return f"Port {port} cannot be opened ({problem.strerror}). Choose another one: {setting}=8420"
    return None


def no_sqlite() -> str | None:
    try:
        import sqlite3  # noqa: F401
    except ImportError:
        return (
            "This Python was built without SQLite, which holds the ledger.\n"
            "Use the Python of your system's packages, or build it again with SQLite's development files."
        )
    return None


def wal_can_corrupt(version: tuple[int, int, int]) -> bool:
    """SQLite before 3.51.3 may damage a WAL database when two connections write and checkpoint at once.

    Cured in 3.50.7 and 3.44.6 too. Source: sqlite.org/wal.html#walresetbug, sqlite.org/changes.html.
    """
    cured = (3, 50, 7) <= version < (3, 51, 0) or (3, 44, 6) <= version < (3, 45, 0)
    return version < (3, 51, 3) and not cured


def journal_mode(version: tuple[int, int, int]) -> str:
    """The journal every connection sets; TRUNCATE does not persist in the file, WAL does."""
    return "TRUNCATE" if wal_can_corrupt(version) else "WAL"


def affected_sqlite(version: tuple[int, int, int]) -> str | None:
    """A notice, not a refusal: with the older journal nothing is at risk."""
    if not wal_can_corrupt(version):
        return None
    return (
        f"SQLite {'.'.join(map(str, version))} has a known fault in its faster journal. "
        "The older one is used: nothing to do. SQLite 3.51.3 or newer brings the faster one back."
    )
