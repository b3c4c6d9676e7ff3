"""Certificates of the kitchen's own, judged by Python's own TLS."""

import datetime as dt
import socket
import ssl
import stat
import threading
from contextlib import suppress
from pathlib import Path

import pytest

from service.addresses import own_addresses, own_names
from service.clock import utc_now
from service.tls import CertificateError, Certificates, certificates

NAMES = ("kitchen.local", "127.0.0.1")


def shake_hands(made: Certificates, name: str, *, trust: bool = True) -> None:
    """Connect to a server with these certificates as a browser does."""
    serving = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
    serving.load_cert_chain(made.chain, made.key)
    asking = ssl.create_default_context()
    if trust:
        asking.load_verify_locations(made.authority)
    here, there = socket.socketpair()
    with here, there:
        there.settimeout(5)

        def serve() -> None:
            with suppress(OSError, ssl.SSLError):
                serving.wrap_socket(there, server_side=True).close()

        thread = threading.Thread(target=serve)
        thread.start()
        try:
            asking.wrap_socket(here, server_hostname=name).close()
        finally:
            here.close()
            thread.join()


@pytest.mark.parametrize("name", NAMES)
def test_who_trusts_the_authority_trusts_the_server(tmp_path: Path, name: str) -> None:
    shake_hands(certificates(tmp_path, NAMES, utc_now), name)


def test_who_does_not_or_finds_another_name_refuses_it(tmp_path: Path) -> None:
    made = certificates(tmp_path, NAMES, utc_now)
    with pytest.raises(ssl.SSLCertVerificationError):
        shake_hands(made, NAMES[0], trust=False)
    with pytest.raises(ssl.SSLCertVerificationError):
        shake_hands(made, "elsewhere.local")


def test_they_are_kept_until_a_name_comes_or_the_end_nears(tmp_path: Path) -> None:
    def now_and_later(days: int) -> dt.datetime:
        return utc_now() + dt.timedelta(days=days)

    made = certificates(tmp_path, NAMES, utc_now)
    authority, first = made.authority.read_bytes(), made.chain.read_bytes()
    certificates(tmp_path, NAMES[:1], lambda: now_and_later(300))
    assert made.chain.read_bytes() == first
    certificates(tmp_path, (*NAMES, "10.0.0.7"), utc_now)
    named = made.chain.read_bytes()
    assert named != first
    certificates(tmp_path, NAMES, lambda: now_and_later(380))
    assert made.chain.read_bytes() != named
    assert made.authority.read_bytes() == authority, "no phone needs to be told anew"


def test_keys_are_for_their_owner_alone(tmp_path: Path) -> None:
    made = certificates(tmp_path / "tls", NAMES, utc_now)
    for path in (made.key, tmp_path / "tls" / "authority.key"):
        assert stat.S_IMODE(path.stat().st_mode) == 0o600


def test_what_is_no_certificate_is_named_with_the_remedy(tmp_path: Path) -> None:
    made = certificates(tmp_path, NAMES, utc_now)
    made.chain.write_text("nothing")
    with pytest.raises(CertificateError, match=r"server\.pem.*Move the folder"):
        certificates(tmp_path, NAMES, utc_now)


def test_the_machine_knows_names_of_its_own() -> None:
    assert any(name.endswith(".local") for name in own_names())
    assert "127.0.0.1" not in own_addresses()
