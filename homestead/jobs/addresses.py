"""Where this computer can be reached: by itself, and by phones in the house. Standard library only."""

from __future__ import annotations

import re
import socket
import sys
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

AVAHI = Path("/run/avahi-daemon/socket")


@dataclass(frozen=True)
class Addresses:
    """`name` stays when the router hands out another number; `found_by_name`: phones can look it up."""

    name: str
    numbers: tuple[str, ...]
    found_by_name: bool = True


def of_this_computer(wanted_name: str) -> Addresses:
    """`wanted_name` is one that the household chose and made known itself."""
    name = wanted_name or own_name(socket.gethostname())
    return Addresses(name, tuple(own_numbers()), bool(wanted_name) or announces_itself())


def announces_itself() -> bool:
    """Does this computer answer to its `.local` name? macOS does; Linux where Avahi runs."""
    return sys.platform == "darwin" or AVAHI.exists()


def own_name(hostname: str) -> str:
    """One label under `.local`, as multicast DNS spells it (RFC 6762 section 3)."""
    label = re.sub(r"[^a-z0-9-]+", "-", hostname.split(".")[0].lower()).strip("-")[:63]
    return f"{label or 'rounds'}.local"


def own_numbers() -> list[str]:
    """The IPv4 number in use towards the house's network; none without a network.

    Connecting a datagram socket sends nothing: the system only chooses the way out. The far end is an address
    kept for documentation (RFC 5737).
    """
    try:
        with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as way_out:
            way_out.connect(("192.0.2.1", 9))
            number: str = way_out.getsockname()[0]
    except OSError:
        return []
    return [] if number.startswith(("127.", "0.")) else [number]


def of_phones(addresses: Addresses, port: int) -> Sequence[str]:
    """The one to open first: the name, if phones can look it up, since what they keep belongs to it."""
    hosts = (addresses.name, *addresses.numbers) if addresses.found_by_name else addresses.numbers
    return [f"https://{host}:{port}" for host in hosts]
