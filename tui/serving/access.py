"""Who is let in: this machine's own browser, or who has the token; no other site's page."""

from __future__ import annotations

import secrets
from ipaddress import ip_address
from urllib.parse import urlsplit

from aiohttp import web
from aiohttp.typedefs import Handler, Middleware

_COOKIE = "farboard"
_HEADERS = {
    "Content-Security-Policy": "default-src 'self'; style-src 'self' 'unsafe-inline'; "
    "img-src 'self' data:; connect-src 'self' {socket}; frame-ancestors 'none'",
    "Referrer-Policy": "no-referrer",
    "X-Content-Type-Options": "nosniff",
    "Cache-Control": "no-store",
}
_NO_TOKEN = (
    "This page needs its token. Open the whole address that stands in the terminal in which "
    "farboard serve runs.\n"
)
_ELSEWHERE = "This page is only for browsers on the machine that it runs on.\n"


def is_loopback(host: str) -> bool:
    """Whether a host can only be reached from this machine."""
    if host.casefold() == "localhost":
        return True
    try:
        return ip_address(host).is_loopback
    except ValueError:
        return False


def guard(token: str, *, local: bool = True) -> Middleware:
    """Return the middleware that lets in, or refuses.

    With a token, the address has to carry it once; a cookie that no other site's page can use
    stands for it then. Where only this machine is to be answered, no other name for it is, so that
    one that is made to point here doesn't get in. A page of another site can't connect.

    Args:
        token: The token; empty: none is asked for.
        local: Whether only this machine is to be answered.
    """

    @web.middleware
    async def let_in(request: web.Request, handler: Handler) -> web.StreamResponse:
        if local and not is_loopback(_host_of(f"//{request.host}")):
            return web.Response(status=403, text=_ELSEWHERE)
        if token:
            given = request.query.get("token", "")
            if (
                request.path == "/"
                and given
                and secrets.compare_digest(_bytes(given), _bytes(token))
            ):
                # The token leaves the address bar. Lax: a link to here in a message has to work.
                known = web.Response(status=303, headers={"Location": "/"})
                known.set_cookie(_COOKIE, token, httponly=True, samesite="Lax")
                return known
            if not secrets.compare_digest(_bytes(request.cookies.get(_COOKIE, "")), _bytes(token)):
                return web.Response(status=403, text=_NO_TOKEN)
        if (
            request.path.startswith("/ws")
            and _netloc(request.headers.get("Origin", "")) != request.host
        ):
            return web.Response(status=403, text="Another site's page can't connect here.\n")
        answer = await handler(request)
        if not answer.prepared:
            socket = f"ws://{request.host} wss://{request.host}"
            answer.headers.update(
                {name: value.replace("{socket}", socket) for name, value in _HEADERS.items()}
            )
        return answer

    return let_in


def _bytes(text: str) -> bytes:
    return text.encode("utf-8", "surrogatepass")


def _host_of(address: str) -> str:
    try:
        return urlsplit(address).hostname or ""
    except ValueError:
        return ""


def _netloc(address: str) -> str:
    try:
        return urlsplit(address).netloc
    except ValueError:
        return ""
