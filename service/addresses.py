"""By which names and addresses others on the network find this machine."""

import datetime as dt
import ipaddress
import socket
from contextlib import suppress
from urllib.parse import quote

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


def phone_address(settings: Settings, port: int) -> str:
    """Where phones find the first page; empty where the server answers its own machine only.

    Parameters
    ----------
    port
        The port without HTTPS, as it is in use.
    """
    if not settings.open_to_others:
        return ""
    name = names_on(settings)[0]
    if settings.tls_port:
        return address("https", name, settings.tls_port)
    return address("http", name, port) if port else ""


def live_page(first_page: str, kitchen: str, date: dt.date, cook: str) -> str:
    """Address of a cook's live page; empty without that of the first page."""
    return f"{first_page}floor/{kitchen}/{date}/cooks/{quote(cook, safe='')}" if first_page else ""


def own_names() -> tuple[str, ...]:
    """Names of this machine: its own, and the one that answers on a local network (RFC 6762)."""
    name = socket.gethostname().lower()
    short = name.partition(".")[0]
    return tuple(dict.fromkeys((name, f"{short}.local")))
