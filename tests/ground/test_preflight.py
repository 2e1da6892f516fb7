"""Each thing that can stand in the way of a start has a sentence that says what it is and what to do."""

from __future__ import annotations

import os
import socket
import subprocess
import sys
from pathlib import Path

import pytest

from homestead.jobs import preflight
from tests.ground.tree import BASE

LINUX_MOUNTS = """\
/dev/sda1 / ext4 rw,relatime 0 0
proc /proc proc rw 0 0
nas:/vol/home /home nfs4 rw,vers=4.2 0 0
//box/share /srv/the\\040share cifs rw 0 0
me@far: /mnt/far fuse.sshfs rw 0 0
/dev/sdb1 /home/us/local fuseblk rw 0 0
"""
MAC_MOUNTS = """\
/dev/disk3s1 on / (apfs, sealed, local, read-only, journaled)
/dev/disk3s5 on /System/Volumes/Data (apfs, local, journaled)
//us@nas._smb._tcp.local/store on /Volumes/store (smbfs, nodev, nosuid, mounted by us)
"""


def test_it_says_which_python_is_needed(tmp_path: Path) -> None:
    older = tmp_path / "older.py"
    older.write_text(
        "import runpy, sys\n"
        "sys.version_info = (3, 9, 2, 'final', 0)\n"
        "sys.argv = ['manage.py', 'start']\n"
        f"runpy.run_path({str(BASE / 'manage.py')!r}, run_name='__main__')\n"
    )
    told = subprocess.run([sys.executable, older], capture_output=True, text=True, cwd=tmp_path)
    assert told.returncode == 1
    assert "needs Python 3.11 or newer; this is 3.9" in told.stderr
    assert "python3.11 manage.py start" in told.stderr


def test_manage_can_be_read_by_an_older_python() -> None:
    """Else the sentence about the version would never be said. Python 3.6 is the oldest still met."""
    import ast

    ast.parse((BASE / "manage.py").read_text(), feature_version=(3, 6))


def test_it_says_that_it_does_not_run_on_windows_itself() -> None:
    assert "WSL" in (preflight.wrong_system("Windows") or "")
    assert preflight.wrong_system("Linux") is None
    assert preflight.wrong_system("Darwin") is None


def test_it_says_that_a_folder_cannot_be_written_to(tmp_path: Path) -> None:
    in_the_way = tmp_path / "data"
    in_the_way.write_text("a file where the folder should be")
    said = preflight.folder_not_writable(in_the_way)
    assert said is not None
    assert str(in_the_way) in said
    assert "ROUNDS_DATA=" in said


def test_it_says_that_a_folder_belongs_to_somebody_else(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(dir: Path) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(preflight.tempfile, "TemporaryFile", refuse)
    said = preflight.folder_not_writable(tmp_path)
    assert said is not None
    assert "Permission denied" in said


def test_it_makes_a_folder_that_is_missing(tmp_path: Path) -> None:
    assert preflight.folder_not_writable(tmp_path / "new" / "data") is None
    assert (tmp_path / "new" / "data").is_dir()


def test_it_says_how_much_room_is_missing(tmp_path: Path) -> None:
    said = preflight.disk_full(tmp_path, needed=300_000_000, free=12_000_000)
    assert said is not None
    assert "12 MB are free, 300 MB are needed" in said
    assert preflight.disk_full(tmp_path, needed=300_000_000, free=300_000_000) is None


def test_it_asks_the_disk_how_much_is_free(tmp_path: Path) -> None:
    assert preflight.disk_full(tmp_path, needed=1) is None
    assert preflight.disk_full(tmp_path, needed=10**18) is not None


@pytest.mark.parametrize(
    ("folder", "mounts", "kind"),
    [
        ("/home/us/rounds", LINUX_MOUNTS, "nfs4"),
        ("/srv/the share/rounds", LINUX_MOUNTS, "cifs"),
        ("/mnt/far", LINUX_MOUNTS, "fuse.sshfs"),
        ("/Volumes/store/rounds", MAC_MOUNTS, "smbfs"),
    ],
)
def test_it_refuses_a_network_disk(folder: str, mounts: str, kind: str) -> None:
    said = preflight.network_disk(Path(folder), mounts)
    assert said is not None
    assert kind in said
    assert "ROUNDS_DATA=" in said


@pytest.mark.parametrize(
    ("folder", "mounts"),
    [
        ("/var/rounds", LINUX_MOUNTS),
        ("/home/us/local/rounds", LINUX_MOUNTS),
        ("/homestead", LINUX_MOUNTS),
        ("/Users/us/rounds", MAC_MOUNTS),
        ("/anywhere", ""),
    ],
)
def test_it_takes_a_disk_of_this_computer(folder: str, mounts: str) -> None:
    assert preflight.network_disk(Path(folder), mounts) is None


def test_it_reads_what_this_computer_has_mounted() -> None:
    assert preflight.disk_kind(Path("/proc/self"), Path("/proc/mounts").read_text()) == "proc"


def test_it_says_that_a_port_is_taken_and_by_what() -> None:
    with socket.create_server(("127.0.0.1", 0)) as other:
        port = other.getsockname()[1]
        said = preflight.port_taken(port, "ROUNDS_PORT")
    assert said is not None
    assert f"Port {port} of this computer is taken" in said
    assert f"ROUNDS_PORT={port + 10}" in said


def test_it_leaves_a_free_port_free() -> None:
    with socket.create_server(("127.0.0.1", 0)) as other:
        port = other.getsockname()[1]
    assert preflight.port_taken(port, "ROUNDS_PORT") is None
    socket.create_server(("127.0.0.1", port)).close()


def test_it_says_that_a_port_cannot_be_opened(monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(self: socket.socket, address: object) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(preflight.socket.socket, "bind", refuse)
    assert "cannot be opened (Permission denied)" in (preflight.port_taken(443, "ROUNDS_PORT") or "")


def test_it_says_that_python_was_built_without_sqlite(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "sqlite3", None)
    assert "built without SQLite" in (preflight.no_sqlite() or "")


# Versions from sqlite.org/wal.html#walresetbug as we know the page: cured in 3.51.3, 3.50.7 and 3.44.6.
@pytest.mark.parametrize("version", [(3, 40, 1), (3, 44, 5), (3, 45, 0), (3, 50, 6), (3, 51, 0), (3, 51, 2)])
def test_it_uses_the_older_journal_on_an_affected_sqlite(version: tuple[int, int, int]) -> None:
    assert preflight.journal_mode(version) == "TRUNCATE"
    assert "known fault" in (preflight.affected_sqlite(version) or "")


@pytest.mark.parametrize("version", [(3, 44, 6), (3, 44, 9), (3, 50, 7), (3, 51, 3), (3, 52, 0), (4, 0, 0)])
def test_it_uses_the_faster_journal_on_a_cured_sqlite(version: tuple[int, int, int]) -> None:
    assert preflight.journal_mode(version) == "WAL"
    assert preflight.affected_sqlite(version) is None


def test_a_start_tells_what_stands_in_the_way_and_changes_nothing(tmp_path: Path) -> None:
    with socket.create_server(("127.0.0.1", 0)) as other:
        taken = {"ROUNDS_PORT": str(other.getsockname()[1]), "ROUNDS_DATA": str(tmp_path / "data")}
        told = subprocess.run(
            [sys.executable, BASE / "manage.py", "start"],
            env={**os.environ, **taken, "ROUNDS_PREPARED": "1"},
            capture_output=True,
            text=True,
        )
    assert told.returncode == 1
    assert "is taken" in told.stderr
    assert list((tmp_path / "data").iterdir()) == []
