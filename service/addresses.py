"""By which names and addresses others on the network find this machine."""

import ipaddress
import socket
from contextlib import suppress

from service.settings import LOOPBACK, Settings

# Never sent to: the system only chooses the address that it would send from. TEST-NET-1, RFC 5737.
_ELSEWHERE = ("192.0.2.1", 9)


def own_addresses() -> tuple[str, ...]:
    """IP addresses of this machine on its networks, the one it sends from first."""
    found: dict[str, None] = {}
    with suppress(OSError), socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        probe.connect(_ELSEWHERE)
        found[str(probe.getsockname()[0])] = None
    with suppress(OSError):
        for *_, address in socket.getaddrinfo(socket.gethostname(), None):
            found[str(address[0]).partition("%")[0]] = None
    return tuple(
        name
        for name in found
        if not (ip := ipaddress.ip_address(name)).is_loopback and not ip.is_unspecified
    )


def names_on(settings: Settings) -> tuple[str, ...]:
    """All names and addresses that a server with these settings is found by, the best first."""
    others = (*own_addresses(), *own_names()) if settings.open_to_others else ()
    every = (*others, *settings.allowed_hosts, *LOOPBACK)
    return tuple(dict.fromkeys(name.lower() for name in every))


def address(scheme: str, name: str, port: int) -> str:
    """The address of the first page on a host; an IPv6 address stands in brackets (RFC 3986)."""
    host = f"[{name}]" if ":" in name else name
    return f"{scheme}://{host}:{port}/"


def own_names() -> tuple[str, ...]:
    """Names of this machine: its own, and the one that answers on a local network (RFC 6762)."""
    name = socket.gethostname().lower()
    short = name.partition(".")[0]
    return tuple(dict.fromkeys((name, f"{short}.local")))
