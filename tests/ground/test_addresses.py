from __future__ import annotations

import socket
from pathlib import Path

import pytest

from homestead.jobs import addresses
from homestead.jobs.addresses import Addresses


@pytest.mark.parametrize(
    ("hostname", "name"),
    [
        ("Cellar", "cellar.local"),
        ("cellar.fritz.box", "cellar.local"),
        ("Our Mac_mini", "our-mac-mini.local"),
        ("", "rounds.local"),
        ("---", "rounds.local"),
        ("x" * 80, "x" * 63 + ".local"),
    ],
)
def test_the_name_is_one_label_under_local(hostname: str, name: str) -> None:
    """RFC 6762 section 3 for `.local`; RFC 1035 section 2.3.4 for 63 octets."""
    assert addresses.own_name(hostname) == name


def test_a_name_of_the_family_s_own_is_taken_as_it_is() -> None:
    assert addresses.of_this_computer("rounds.example").name == "rounds.example"


def test_phones_are_told_the_name_first_and_then_the_number() -> None:
    told = addresses.of_phones(Addresses("cellar.local", ("192.0.2.7",)), 8421)
    assert told == ["https://cellar.local:8421", "https://192.0.2.7:8421"]


def test_phones_are_told_the_number_alone_where_no_name_is_announced() -> None:
    told = addresses.of_phones(Addresses("cellar.local", ("192.0.2.7",), found_by_name=False), 8421)
    assert told == ["https://192.0.2.7:8421"]


def test_a_chosen_name_is_taken_to_be_known_and_the_own_only_where_it_is_announced(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(addresses.sys, "platform", "linux")
    monkeypatch.setattr(addresses, "AVAHI", tmp_path / "socket")
    assert addresses.of_this_computer("rounds.example").found_by_name
    assert not addresses.of_this_computer("").found_by_name
    (tmp_path / "socket").touch()
    assert addresses.of_this_computer("").found_by_name


def test_without_a_network_there_is_no_number(monkeypatch: pytest.MonkeyPatch) -> None:
    def unreachable(self: socket.socket, address: object) -> None:
        raise OSError(101, "Network is unreachable")

    monkeypatch.setattr(addresses.socket.socket, "connect", unreachable)
    assert addresses.own_numbers() == []


def test_its_own_loopback_is_no_number_for_phones(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(addresses.socket.socket, "connect", lambda self, address: None)
    monkeypatch.setattr(addresses.socket.socket, "getsockname", lambda self: ("127.0.1.1", 0))
    assert addresses.own_numbers() == []
