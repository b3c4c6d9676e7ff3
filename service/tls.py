"""A certificate of the kitchen's own, so that phones on its network may trust this server.

Browsers keep pages for use without network, and let them hold a screen awake, only over HTTPS. No
public authority signs for an address on a kitchen's network, so this makes an authority of its own,
once, which a phone is told to trust, and a server's certificate from it, again when it nears its
end or the machine's addresses change. Keys stay in the data folder, readable by its owner alone.
"""

import datetime as dt
import ipaddress
import os
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path

from cryptography import x509
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.x509.oid import ExtendedKeyUsageOID, NameOID

from service.clock import Now
from service.errors import UserError

AUTHORITY_FILE = "authority.pem"
AUTHORITY_DAYS = 3650
SERVER_DAYS = 397
"""Longer ones are refused by some phones."""
RENEWED_BEFORE_DAYS = 30


class CertificateError(UserError):
    """A kept certificate cannot be read; the message names it and the remedy."""


@dataclass(frozen=True, slots=True)
class Certificates:
    """Files of the server's certificate chain and key, and of the authority to be trusted."""

    chain: Path
    key: Path
    authority: Path


def certificates(folder: Path, names: Sequence[str], now: Now) -> Certificates:
    """The certificates in ``folder``, made or renewed where that is due.

    Parameters
    ----------
    folder
        Where they are kept; made if it is not there.
    names
        Host names and IP addresses that the server is found by.
    now
        The clock.

    Raises
    ------
    CertificateError
        A file is there and is no certificate or key.
    OSError
        The folder cannot be written to.
    """
    folder.mkdir(parents=True, exist_ok=True, mode=0o700)
    found = Certificates(folder / "server.pem", folder / "server.key", folder / AUTHORITY_FILE)
    authority_key = folder / "authority.key"
    moment = now()
    if not (found.authority.exists() and authority_key.exists()):
        _make_authority(found.authority, authority_key, moment)
        found.chain.unlink(missing_ok=True)
    if not (found.chain.exists() and found.key.exists()) or _is_due(found.chain, names, moment):
        _make_server(found, authority_key, names, moment)
    return found


def _make_authority(path: Path, key_path: Path, now: dt.datetime) -> None:
    key = ec.generate_private_key(ec.SECP256R1())
    name = _name("Prepwright, this kitchen's own")
    usage = x509.KeyUsage(
        digital_signature=False,
        content_commitment=False,
        key_encipherment=False,
        data_encipherment=False,
        key_agreement=False,
        key_cert_sign=True,
        crl_sign=True,
        encipher_only=False,
        decipher_only=False,
    )
    made = (
        _builder(name, name, key.public_key(), now, AUTHORITY_DAYS)
        .add_extension(x509.BasicConstraints(ca=True, path_length=0), critical=True)
        .add_extension(usage, critical=True)
        .add_extension(x509.SubjectKeyIdentifier.from_public_key(key.public_key()), critical=False)
        .sign(key, hashes.SHA256())
    )
    _write(key_path, _key_bytes(key), secret=True)
    _write(path, made.public_bytes(serialization.Encoding.PEM))


def _make_server(
    files: Certificates, authority_key: Path, names: Sequence[str], now: dt.datetime
) -> None:
    authority = _read(files.authority)
    signer = _read_key(authority_key)
    key = ec.generate_private_key(ec.SECP256R1())
    made = (
        _builder(_name(names[0]), authority.subject, key.public_key(), now, SERVER_DAYS)
        .add_extension(x509.BasicConstraints(ca=False, path_length=None), critical=True)
        .add_extension(x509.SubjectAlternativeName(_alternatives(names)), critical=False)
        .add_extension(x509.ExtendedKeyUsage([ExtendedKeyUsageOID.SERVER_AUTH]), critical=False)
        .add_extension(
            x509.AuthorityKeyIdentifier.from_issuer_public_key(signer.public_key()), critical=False
        )
        .sign(signer, hashes.SHA256())
    )
    chain = [made, authority]
    _write(files.key, _key_bytes(key), secret=True)
    _write(files.chain, b"".join(c.public_bytes(serialization.Encoding.PEM) for c in chain))


def _is_due(chain: Path, names: Sequence[str], now: dt.datetime) -> bool:
    """Whether the server's certificate nears its end, or says nothing of a name."""
    made = _read(chain)
    if made.not_valid_after_utc - now < dt.timedelta(days=RENEWED_BEFORE_DAYS):
        return True
    said = made.extensions.get_extension_for_class(x509.SubjectAlternativeName).value
    return not set(_alternatives(names)) <= set(said)


def _builder(
    subject: x509.Name,
    issuer: x509.Name,
    key: ec.EllipticCurvePublicKey,
    now: dt.datetime,
    days: int,
) -> x509.CertificateBuilder:
    return (
        x509.CertificateBuilder()
        .subject_name(subject)
        .issuer_name(issuer)
        .public_key(key)
        .serial_number(x509.random_serial_number())
        # A day back: a phone's clock may be behind.
        .not_valid_before(now - dt.timedelta(days=1))
        .not_valid_after(now + dt.timedelta(days=days))
    )


def _name(text: str) -> x509.Name:
    return x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, text[:64])])


def _alternatives(names: Iterable[str]) -> list[x509.GeneralName]:
    found: list[x509.GeneralName] = []
    for name in names:
        try:
            found.append(x509.IPAddress(ipaddress.ip_address(name)))
        except ValueError:
            found.append(x509.DNSName(name))
    return found


def _key_bytes(key: ec.EllipticCurvePrivateKey) -> bytes:
    return key.private_bytes(
        serialization.Encoding.PEM,
        serialization.PrivateFormat.PKCS8,
        serialization.NoEncryption(),
    )


def _write(path: Path, data: bytes, *, secret: bool = False) -> None:
    """Write a file that is there wholly or not at all; a secret one for its owner alone."""
    part = path.with_name(f".{path.name}.part")
    part.unlink(missing_ok=True)
    handle = os.open(part, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600 if secret else 0o644)
    with os.fdopen(handle, "wb") as file:
        file.write(data)
    part.replace(path)


def _read(path: Path) -> x509.Certificate:
    try:
        return x509.load_pem_x509_certificate(path.read_bytes())
    except ValueError:
        raise _unreadable(path, "certificate") from None


def _read_key(path: Path) -> ec.EllipticCurvePrivateKey:
    try:
        key = serialization.load_pem_private_key(path.read_bytes(), None)
    except ValueError:
        raise _unreadable(path, "key") from None
    if not isinstance(key, ec.EllipticCurvePrivateKey):
        raise _unreadable(path, "key of ours")
    return key


def _unreadable(path: Path, what: str) -> CertificateError:
    return CertificateError(
        f"{path}: this is no {what}. Move the folder {path.parent} away and start again: new ones "
        "are made, and every phone must be told to trust them anew."
    )
