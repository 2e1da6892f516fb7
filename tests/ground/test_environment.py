"""Settings are read by type; one that cannot be read stops the program, named, with what it may be."""

from __future__ import annotations

from pathlib import Path

import pytest

from homestead import environment as env


@pytest.fixture
def setting(monkeypatch: pytest.MonkeyPatch) -> str:
    monkeypatch.delenv("ROUNDS_TRIED", raising=False)
    return "ROUNDS_TRIED"


def test_nothing_set_leaves_every_default(setting: str, tmp_path: Path) -> None:
    assert env.text(setting, "a") == "a"
    assert env.path(setting, Path("/b")) == Path("/b")
    assert env.flag(setting, default=True) is True
    assert env.number(setting, 7, 1, 9) == 7
    assert env.names(setting, ["c"]) == ["c"]
    assert env.one_of(setting, "WAL", ["WAL", "TRUNCATE"]) == "WAL"
    assert env.secret(setting, tmp_path / "missing", "d" * 40) == "d" * 40


@pytest.mark.parametrize(
    ("written", "read"), [("1", True), ("Yes", True), ("on", True), ("no", False), ("0", False)]
)
def test_it_reads_yes_and_no(setting: str, monkeypatch: pytest.MonkeyPatch, written: str, read: bool) -> None:
    monkeypatch.setenv(setting, written)
    assert env.flag(setting) is read


def test_it_refuses_a_word_that_is_neither_yes_nor_no(setting: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv(setting, "perhaps")
    with pytest.raises(env.BadSetting, match=r"ROUNDS_TRIED is 'perhaps'\. It may be yes or no\."):
        env.flag(setting)


@pytest.mark.parametrize("written", ["0", "70000", "-1", "8080 ", "8O80", "8080.0"])
def test_it_refuses_a_number_that_is_none_or_out_of_bounds(
    setting: str, monkeypatch: pytest.MonkeyPatch, written: str
) -> None:
    monkeypatch.setenv(setting, written)
    with pytest.raises(env.BadSetting, match="a whole number from 1 to 65535"):
        env.number(setting, 8420, 1, 65535)


def test_it_reads_a_number_at_either_bound(setting: str, monkeypatch: pytest.MonkeyPatch) -> None:
    for written in ("1", "65535"):
        monkeypatch.setenv(setting, written)
        assert env.number(setting, 8420, 1, 65535) == int(written)


def test_it_reads_names_between_commas(setting: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv(setting, " a.example , b.example,")
    assert env.names(setting, []) == ["a.example", "b.example"]


def test_it_refuses_a_choice_that_is_not_offered(setting: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv(setting, "MEMORY")
    with pytest.raises(env.BadSetting, match="WAL or TRUNCATE"):
        env.one_of(setting, "WAL", ["WAL", "TRUNCATE"])


def test_a_home_folder_may_be_written_short(setting: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("HOME", "/home/us")
    monkeypatch.setenv(setting, "~/rounds")
    assert env.path(setting, Path("/b")) == Path("/home/us/rounds")


def test_a_secret_is_read_from_the_file_that_start_made(setting: str, tmp_path: Path) -> None:
    kept = tmp_path / "secret-key"
    kept.write_text("k" * 50 + "\n")
    assert env.secret(setting, kept, "w" * 40) == "k" * 50


def test_a_short_secret_is_refused_and_not_repeated(
    setting: str, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.setenv(setting, "hunter2")
    with pytest.raises(env.BadSetting) as refused:
        env.secret(setting, tmp_path / "missing", "w" * 40)
    assert "hunter2" not in str(refused.value)
    assert "7 characters" in str(refused.value)
