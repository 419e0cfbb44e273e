"""The kitchen's own certificate authority, and the certificate its server shows: made here, trusted by its phones.

Phones keep pages, and shared tablets keep secrets, over HTTPS only; a kitchen's network has no public name anybody
would certify. So the kitchen certifies itself. The authority may speak for the names and addresses it was made for and
for nothing else (name constraints, RFC 5280 section 4.2.1.10), so that a phone that trusts it gives away no more.
Keys are elliptic (P-256); a server's certificate lasts 397 days, within what phones take, and is renewed in time.
"""

from __future__ import annotations

import os
from collections.abc import Sequence
from contextlib import suppress
from dataclasses import dataclass
from datetime import datetime, timedelta
from ipaddress import IPv4Address, IPv6Address, ip_address, ip_network
from pathlib import Path

from cryptography import x509
from cryptography.hazmat.primitives import hashes
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.hazmat.primitives.serialization import Encoding, NoEncryption, PrivateFormat, load_pem_private_key
from cryptography.x509.oid import ExtendedKeyUsageOID, NameOID

from trainer.store.problems import NotAKitchen

FOLDER = "https"
AUTHORITY_LASTS = timedelta(days=3650)
SERVER_LASTS = timedelta(days=397)
RENEWED_BEFORE = timedelta(days=30)
A_DAY = timedelta(days=1)
"""How far a phone's clock may be behind."""


@dataclass(frozen=True, slots=True)
class HouseCertificate:
    """Where the files of a kitchen's HTTPS lie: what phones trust, and what the server shows with its key."""

    folder: Path

    @property
    def authority(self) -> Path:
        """Return the authority's certificate, as phones take it in."""
        return self.folder / "authority.crt"

    @property
    def authority_key(self) -> Path:
        """Return the authority's key, which never leaves this machine."""
        return self.folder / "authority.key"

    @property
    def server(self) -> Path:
        """Return the server's certificate, the authority's after it."""
        return self.folder / "server.crt"

    @property
    def server_key(self) -> Path:
        """Return the server's key."""
        return self.folder / "server.key"

    @property
    def names(self) -> tuple[str, ...]:
        """Return the names and addresses the server's certificate is for, the first one first."""
        found = _read(self.server).extensions.get_extension_for_class(x509.SubjectAlternativeName).value
        return tuple(str(one.value) for one in found)

    @property
    def ends(self) -> datetime:
        """Return when the server's certificate ends."""
        return _read(self.server).not_valid_after_utc

    @property
    def fingerprint(self) -> str:
        """Return the SHA-256 fingerprint of the authority, in pairs, as phones show it."""
        return _read(self.authority).fingerprint(hashes.SHA256()).hex(" ").upper()


def house_certificate(kitchen: Path) -> HouseCertificate | None:
    """Return the certificate of the kitchen in a folder; None where none was made."""
    found = HouseCertificate(kitchen / FOLDER)
    return found if found.server.exists() and found.server_key.exists() else None


def make_certificate(kitchen: Path, title: str, names: Sequence[str], now: datetime) -> HouseCertificate:
    """Make an authority and a server's certificate for these names and addresses, in place of any before.

    Phones that trusted the authority before have to take in the new one. *title* is the kitchen's name.
    """
    made = HouseCertificate(kitchen / FOLDER)
    made.folder.mkdir(mode=0o700, exist_ok=True)
    key = ec.generate_private_key(ec.SECP256R1())
    _write(made.authority_key, _key_text(key))
    _write(made.authority, _authority(title, names, key, now).public_bytes(Encoding.PEM))
    _certify(made, names, now)
    return made


def renew_in_time(made: HouseCertificate, now: datetime) -> bool:
    """Renew a server's certificate that ends within a month, for the names it has; return whether it was renewed.

    Phones notice nothing: the authority stays. Raise `NotAKitchen` where others on the machine can read its key.
    """
    _refuse_readable(made.authority_key)
    _refuse_readable(made.server_key)
    if made.ends - now > RENEWED_BEFORE:
        return False
    _certify(made, made.names, now)
    return True


def _certify(made: HouseCertificate, names: Sequence[str], now: datetime) -> None:
    """Write a new key and certificate for the server, signed by the authority."""
    authority, signer = _read(made.authority), load_pem_private_key(made.authority_key.read_bytes(), None)
    key = ec.generate_private_key(ec.SECP256R1())
    begun = (
        x509.CertificateBuilder()
        .subject_name(_named(names[0]))
        .issuer_name(authority.subject)
        .public_key(key.public_key())
        .serial_number(x509.random_serial_number())
        .not_valid_before(now - A_DAY)
        .not_valid_after(min(now + SERVER_LASTS, authority.not_valid_after_utc))
        .add_extension(x509.SubjectAlternativeName([_general(name) for name in names]), critical=False)
        .add_extension(x509.BasicConstraints(ca=False, path_length=None), critical=True)
        .add_extension(x509.ExtendedKeyUsage([ExtendedKeyUsageOID.SERVER_AUTH]), critical=False)
        .add_extension(_usage(signs_certificates=False), critical=True)
        .add_extension(_of_issuer(authority), critical=False)
    )
    shown = begun.sign(signer, hashes.SHA256())  # type: ignore[arg-type]  # the key was made above
    _write(made.server_key, _key_text(key))
    _write(made.server, shown.public_bytes(Encoding.PEM) + made.authority.read_bytes())


def _authority(title: str, names: Sequence[str], key: ec.EllipticCurvePrivateKey, now: datetime) -> x509.Certificate:
    """Return an authority that may speak for these names and addresses alone."""
    subject = _named(f"{title}: this kitchen's own pages"[:64])
    allowed = x509.NameConstraints([_constraint(name) for name in names], None)
    begun = (
        x509.CertificateBuilder()
        .subject_name(subject)
        .issuer_name(subject)
        .public_key(key.public_key())
        .serial_number(x509.random_serial_number())
        .not_valid_before(now - A_DAY)
        .not_valid_after(now + AUTHORITY_LASTS)
        .add_extension(x509.BasicConstraints(ca=True, path_length=0), critical=True)
        .add_extension(_usage(signs_certificates=True), critical=True)
        .add_extension(allowed, critical=True)
        .add_extension(x509.SubjectKeyIdentifier.from_public_key(key.public_key()), critical=False)
    )
    return begun.sign(key, hashes.SHA256())


def _usage(*, signs_certificates: bool) -> x509.KeyUsage:
    return x509.KeyUsage(
        digital_signature=not signs_certificates,
        key_cert_sign=signs_certificates,
        crl_sign=signs_certificates,
        content_commitment=False,
        key_encipherment=False,
        data_encipherment=False,
        key_agreement=False,
        encipher_only=False,
        decipher_only=False,
    )


def _of_issuer(authority: x509.Certificate) -> x509.AuthorityKeyIdentifier:
    its = authority.extensions.get_extension_for_class(x509.SubjectKeyIdentifier).value
    return x509.AuthorityKeyIdentifier.from_issuer_subject_key_identifier(its)


def _named(name: str) -> x509.Name:
    return x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, name[:64])])


def _address(name: str) -> IPv4Address | IPv6Address | None:
    with suppress(ValueError):
        return ip_address(name)
    return None


def _general(name: str) -> x509.GeneralName:
    address = _address(name)
    return x509.IPAddress(address) if address else x509.DNSName(name)


def _constraint(name: str) -> x509.GeneralName:
    address = _address(name)
    return x509.IPAddress(ip_network(address)) if address else x509.DNSName(name)


def _read(path: Path) -> x509.Certificate:
    return x509.load_pem_x509_certificate(path.read_bytes())


def _key_text(key: ec.EllipticCurvePrivateKey) -> bytes:
    return key.private_bytes(Encoding.PEM, PrivateFormat.PKCS8, NoEncryption())


def _write(path: Path, text: bytes) -> None:
    """Write a file that only its owner can read, whole or not at all."""
    part = path.with_name(path.name + ".part")
    part.unlink(missing_ok=True)
    descriptor = os.open(part, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
    with os.fdopen(descriptor, "wb") as file:
        file.write(text)
    part.replace(path)


def _refuse_readable(path: Path) -> None:
    if os.name == "posix" and path.stat().st_mode & 0o077:
        raise NotAKitchen(f"Others can read {path}. Make it private first: chmod 600 {path}")
