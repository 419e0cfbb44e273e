"""Under which names a kitchen answers: this machine's own, its addresses, and those anyone who starts it names.

A browser can be led to an address by any name another person owns, and what is printed on a card leads to the name its
page was opened by. So a name nobody here has given is not answered (host header injection, OWASP WSTG-INPV-17, from
memory).
"""

from __future__ import annotations

from collections.abc import Collection
from ipaddress import ip_address

LOCAL = "localhost"
AT_HOME = ("local", "lan", "home.arpa", "internal")
"""Endings a network of one's own gives its machines (RFC 6762, RFC 8375; the others by common practice)."""


def names_of(machine: str) -> tuple[str, ...]:
    """Return the names a machine has on its own network: by itself, and with the endings such networks give.

    >>> names_of("Office-PC")[:2]
    ('office-pc', 'office-pc.local')
    """
    own = machine.lower().strip(".")
    return (own, *(f"{own.partition('.')[0]}.{ending}" for ending in AT_HOME)) if own else ()


def is_own(host: str, names: Collection[str]) -> bool:
    """Return whether a Host header, with or without its port, is an address, localhost or one of the names.

    An address is always one's own: nobody leads a browser astray with it.

    >>> is_own("192.168.1.5:8070", ()), is_own("kitchen.example:443", ["kitchen.example"]), is_own("evil.example", ())
    (True, True, False)
    """
    name, port = _parted(host.lower())
    if port and not (port.isascii() and port.isdigit()):
        return False
    return _is_address(name) or name.rstrip(".") in {LOCAL, *(each.lower() for each in names)}


def is_this_machine(host: str) -> bool:
    """Return whether a Host header names the machine the browser runs on: localhost, or a loopback address.

    >>> is_this_machine("127.0.0.1:8070"), is_this_machine("[::1]:8070"), is_this_machine("192.168.1.5")
    (True, True, False)
    """
    name = _parted(host.lower())[0]
    return ip_address(name).is_loopback if _is_address(name) else name.rstrip(".") == LOCAL


def _parted(host: str) -> tuple[str, str]:
    """Return the name and the port of a host; an IPv6 address stands in brackets."""
    if host.startswith("["):
        address, _, rest = host[1:].partition("]")
        return address, rest.removeprefix(":")
    name, _, port = host.partition(":")
    return name, port


def _is_address(name: str) -> bool:
    try:
        ip_address(name)
    except ValueError:
        return False
    return True
