"""Where this computer can be reached: by itself, and by phones in the house. Standard library only."""

from __future__ import annotations

import re
import socket
from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True)
class Addresses:
    """`name` is what phones are told; it stays when the router hands out another number."""

    name: str
    numbers: tuple[str, ...]


def of_this_computer(wanted_name: str) -> Addresses:
    return Addresses(name=wanted_name or own_name(socket.gethostname()), numbers=tuple(own_numbers()))


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
    """The name first; the number for phones that cannot look the name up."""
    return [f"https://{host}:{port}" for host in (addresses.name, *addresses.numbers)]
