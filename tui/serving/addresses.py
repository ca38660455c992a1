"""How an address is written so that another device can open it."""

from __future__ import annotations

import socket
from ipaddress import ip_address


def shown_host(host: str) -> str:
    """Return a host as it stands in an address: what listens everywhere by an address of its own.

    Args:
        host: A name or an IP address.
    """
    try:
        address = ip_address(host)
    except ValueError:
        return host
    if address.is_unspecified:
        return _own(host, ip6=address.version == 6)
    return f"[{host}]" if address.version == 6 else host


def _own(host: str, *, ip6: bool) -> str:
    # Connecting a datagram socket sends nothing; it asks which way out would be taken. The
    # addresses stand for anywhere: they are kept for documentation (RFC 5737, RFC 3849).
    family, there = (socket.AF_INET6, "2001:db8::1") if ip6 else (socket.AF_INET, "192.0.2.1")
    try:
        with socket.socket(family, socket.SOCK_DGRAM) as asked:
            asked.connect((there, 9))
            own = str(asked.getsockname()[0])
    except OSError:
        return f"[{host}]" if ip6 else host
    return f"[{own}]" if ip6 else own
