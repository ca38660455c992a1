"""Who is answered by the page: this machine, or who has the token; no page of another site."""

from __future__ import annotations

import socket

import pytest
from aiohttp import (
    WSServerHandshakeError,
)

from tests.commands.test_serve import page_server
from tui.serving.access import is_loopback
from tui.serving.addresses import shown_host

TOKEN = "a-token-of-the-test"


async def test_only_names_of_this_machine_are_answered_without_a_token() -> None:
    """A name that is made to point at this machine (DNS rebinding) must not get in."""
    async with page_server() as client:
        for host in ("127.0.0.1:1", "localhost:1", "[::1]:1"):
            assert (await client.get("/", headers={"Host": host})).status == 200
        for host in ("shed.example", "127.0.0.1.shed.example", "192.0.2.7:80", "[", ""):
            for path in ("/", "/page/page.js", "/static/js/textual.js", "/ws"):
                assert (await client.get(path, headers={"Host": host})).status in (400, 403)


@pytest.mark.parametrize("path", ["/ws", "/ws/touch"])
@pytest.mark.parametrize("token", ["", TOKEN])
async def test_a_page_of_another_site_can_not_connect(token: str, path: str) -> None:
    async with page_server(token) as client:
        await client.get("/", params={"token": token})
        for origin in ("http://shed.example", "null", "http://[", ""):
            with pytest.raises(WSServerHandshakeError) as refused:
                await client.ws_connect(path, headers={"Origin": origin})
            assert refused.value.status == 403
        with pytest.raises(WSServerHandshakeError):
            await client.ws_connect(path)


async def test_with_a_token_nothing_is_answered_to_who_has_it_not() -> None:
    async with page_server(TOKEN) as client:
        for path in (
            "/",
            "/ws",
            "/ws/touch",
            "/page/page.js",
            "/static/js/textual.js",
            "/download/x",
            "/?token=",
            "/?token=another",
            f"/?token={TOKEN}x",
            "/?token=%ed%a0%80",
            f"/page/page.js?token={TOKEN}",
        ):
            answer = await client.get(path)
            assert answer.status == 403
            assert "needs its token" in await answer.text()
        wrong = await client.get("/", headers={"Cookie": "farboard=another"})
        assert wrong.status == 403


async def test_the_token_lets_in_and_leaves_the_address_bar() -> None:
    async with page_server(TOKEN) as client:
        first = await client.get("/", params={"token": TOKEN}, allow_redirects=False)
        assert (first.status, first.headers["Location"]) == (303, "/")
        cookie = first.cookies["farboard"]
        assert cookie["httponly"]
        assert cookie["samesite"] == "Lax"

        page = await client.get("/")
        assert page.status == 200
        assert TOKEN not in await page.text()
        assert (await client.get("/page/page.js")).status == 200


@pytest.mark.parametrize(
    ("host", "alone"),
    [
        ("127.0.0.1", True),
        ("127.3.2.1", True),
        ("::1", True),
        ("LocalHost", True),
        ("0.0.0.0", False),
        ("::", False),
        ("192.0.2.7", False),
        ("shed.example", False),
        ("", False),
    ],
)
def test_what_only_this_machine_reaches(host: str, alone: bool) -> None:
    assert is_loopback(host) is alone


def test_an_address_is_one_that_another_device_can_open() -> None:
    assert shown_host("192.0.2.7") == "192.0.2.7"
    assert shown_host("2001:db8::7") == "[2001:db8::7]"
    assert shown_host("shed.example") == "shed.example"
    everywhere = shown_host("0.0.0.0")
    try:
        with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as asked:
            asked.connect(("192.0.2.1", 9))
        assert everywhere != "0.0.0.0"
    except OSError:
        assert everywhere == "0.0.0.0"
