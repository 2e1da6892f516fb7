"""What the documents tell is there: links, commands, settings, files."""

from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path

import pytest

from tests.ground.tree import BASE

DOCUMENTS = [BASE / "README.md", BASE / "DEVELOPERS.md", *sorted((BASE / "docs").rglob("*.md"))]


@pytest.mark.parametrize("document", DOCUMENTS, ids=lambda path: path.name)
def test_every_link_leads_somewhere(document: Path) -> None:
    links = re.findall(r"\]\((?!https?:)([^)#\s]+)", document.read_text())
    assert [link for link in links if not (document.parent / link).exists()] == []


def test_the_readme_begins_with_the_job_and_the_two_commands() -> None:
    text = (BASE / "README.md").read_text()
    assert text.index("winter store") < text.index("manage.py start") < text.index("manage.py check-all")


def test_every_setting_that_is_read_is_told_and_the_other_way_round() -> None:
    source = "".join((BASE / "homestead" / name).read_text() for name in ("settings.py", "environment.py"))
    read = set(re.findall(r'"(ROUNDS_[A-Z_]+)"', source))
    told = (BASE / "docs" / "hosting.md").read_text()
    family = [f"ROUNDS_PG{part}" for part in ("_HOST", "_PORT", "_USER", "_PASSWORD")]
    assert {name for name in read if name not in told and name not in family} == set()
    assert {name for name in re.findall(r"ROUNDS_[A-Z_]+", told) if name not in read} <= {"ROUNDS_PREPARED"}


def test_every_path_that_contributors_are_sent_to_is_there() -> None:
    paths = re.findall(
        r"`((?:homestead|frontend|tests|docs|fixtures|api)/[\w./-]*)`", (BASE / "DEVELOPERS.md").read_text()
    )
    assert paths
    assert [path for path in paths if not (BASE / path).exists()] == []


def test_every_management_command_in_the_documents_is_there() -> None:
    known = subprocess.run(
        [sys.executable, "manage.py", "help", "--commands"], capture_output=True, text=True, cwd=BASE
    )
    text = "".join(document.read_text() for document in DOCUMENTS)
    named = set(re.findall(r"manage\.py ([a-z][a-z_-]+)", text)) - {"start", "build"}
    assert {name for name in named if name.replace("-", "_") not in known.stdout.split()} == set()
