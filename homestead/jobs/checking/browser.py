"""The browsers that tests drive: the system's Chromium, or one from a package of the frontend's lock."""

from __future__ import annotations

import os
import shutil
import stat
import subprocess
import tarfile
from pathlib import Path

from homestead.environment import BASE
from homestead.jobs import node

PACKAGE = BASE / "frontend" / "node_modules" / "@sparticuz" / "chromium" / "bin"
UNPACKED = BASE / ".browser"
WEBKIT = Path("/usr/lib/x86_64-linux-gnu/webkit2gtk-4.1/MiniBrowser")

UNBROTLI = (
    "const z=require('node:zlib'),f=require('node:fs'),p=require('node:stream/promises');"
    "p.pipeline(f.createReadStream(process.argv[1]),z.createBrotliDecompress(),f.createWriteStream(process.argv[2]))"
)


def chromium() -> Path:
    """The program to start. Unpacks one (211 MB in `.browser`) when the system has none."""
    system = os.environ.get("ROUNDS_CHROMIUM") or shutil.which("chromium") or shutil.which("google-chrome")
    return Path(system) if system and not os.environ.get("ROUNDS_NO_SYSTEM_BROWSER") else _unpacked()


def _unpacked() -> Path:
    program = UNPACKED / "start"
    if program.exists():
        return program
    UNPACKED.mkdir(exist_ok=True)
    for packed in sorted(PACKAGE.glob("*.br")):
        _unpack(packed)
    (UNPACKED / "chromium").chmod(0o755)
    (UNPACKED / "fonts.conf").write_text(
        '<?xml version="1.0"?><!DOCTYPE fontconfig SYSTEM "fonts.dtd">'
        f"<fontconfig><dir>{UNPACKED}/fonts</dir><cachedir>{UNPACKED}/font-cache</cachedir></fontconfig>"
    )
    program.write_text(
        "#!/bin/sh\n# its own libraries and fonts: without the fonts, text has no size\n"
        f"export LD_LIBRARY_PATH='{UNPACKED}/lib' FONTCONFIG_FILE='{UNPACKED}/fonts.conf'\n"
        f"exec '{UNPACKED}/chromium' \"$@\"\n"
    )
    program.chmod(program.stat().st_mode | stat.S_IXUSR)
    return program


def _unpack(packed: Path) -> None:
    to = UNPACKED / packed.name.removesuffix(".br")
    subprocess.run([str(node.NODE), "-e", UNBROTLI, str(packed), str(to)], check=True)
    if to.suffix == ".tar":
        with tarfile.open(to) as archive:
            archive.extractall(UNPACKED)
        to.unlink()
