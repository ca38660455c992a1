"""The server: a page, and behind it one wizard, which the page opened last has."""

from __future__ import annotations

import asyncio
import json
import logging
import signal
import sys
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

import aiohttp_jinja2
import textual_serve
from aiohttp import WSMsgType, web
from aiohttp.http_exceptions import HttpProcessingError
from textual_serve.server import Server, to_int

from records.errors import FarboardError
from tui.serving.access import guard
from tui.serving.child import Child

_PAGE = Path(__file__).parent / "page"
_THEIRS = Path(textual_serve.__file__).parent / "static"


class CannotServe(FarboardError):
    """The server can't stand where it was asked to."""


class WizardServer(Server):
    """Serves the wizard on one address until it is told to stop."""

    def __init__(
        self,
        words: Sequence[str],
        *,
        host: str,
        port: int,
        title: str,
        token: str,
        local: bool = True,
    ) -> None:
        """Prepare the server.

        Args:
            words: What runs the wizard.
            host: The address to listen on.
            port: The port; 0: any that is free.
            title: Of the page.
            token: What the address must carry; empty: nothing.
            local: Whether only this machine is answered.
        """
        super().__init__("", host, port, title, statics_path=_THEIRS, templates_path=_PAGE)
        self._words, self._token, self._local = tuple(words), token, local
        self._turn = asyncio.Lock()
        self._child: Child | None = None

    async def run(self, standing: Callable[[int], None]) -> None:
        """Serve until a signal says to stop; then no wizard is left behind.

        Args:
            standing: Called with the port once pages are answered.
        Raises:
            CannotServe: If the address can't be listened on.
        """
        logging.getLogger("aiohttp.server").addFilter(_is_ours)
        runner = web.AppRunner(await self._make_app(), access_log=None, shutdown_timeout=2.0)
        await runner.setup()
        try:
            site = web.TCPSite(runner, self.host, self.port)
            try:
                await site.start()
            except (OSError, ValueError) as error:  # a host may be nothing that is a host's name
                reason = getattr(error, "strerror", None) or "that is no host of this machine"
                raise CannotServe(
                    f"No page can be served on {self.host}, port {self.port}: {reason}. "
                    "Another --port may be free."
                ) from None
            standing(runner.addresses[0][1])
            await _told_to_stop()
        finally:
            await self._end_child()
            await runner.cleanup()

    async def _make_app(self) -> web.Application:
        app = web.Application(middlewares=[guard(self._token, local=self._local)])
        aiohttp_jinja2.setup(app, loader=_loader())
        app.add_routes(
            [
                web.get("/", self.handle_index),
                web.get("/ws", self.handle_websocket),
                web.get("/ws/touch", self.handle_websocket),
                web.get("/download/{key}", self.handle_download),
                web.static("/page", _PAGE),
                web.static("/static", self.statics_path),
            ]
        )
        return app

    @aiohttp_jinja2.template("app_index.html")
    async def handle_index(self, request: web.Request) -> dict[str, Any]:
        """Answer with the page; it connects to wherever it came from."""
        scheme = "wss" if request.scheme == "https" else "ws"
        return {
            "title": self.title,
            "socket": f"{scheme}://{request.host}/ws",
            "font_size": max(6, min(40, to_int(request.query.get("fontsize", ""), 16))),
            "fitted": "fontsize" not in request.query,
        }

    async def handle_websocket(self, request: web.Request) -> web.WebSocketResponse:
        """Run a wizard for a page; one that another page has is closed first, drafts kept."""
        page = web.WebSocketResponse(heartbeat=15)
        await page.prepare(request)
        width, height = (_size(request, name, usual) for name, usual in _USUAL)
        async with self._turn:
            await self._end_child()
            touch = request.path.endswith("/touch")
            child = self._child = Child(self._words, page, self.download_manager, touch=touch)
            await child.start(width, height)
        try:
            await _passed_on(page, child)
        finally:
            await child.stop()
            await page.close()
        return page

    async def _end_child(self) -> None:
        child, self._child = self._child, None
        if child is not None:
            await child.stop()


def _is_ours(record: logging.LogRecord) -> bool:
    """Say whether a fault is one of this program: what a stranger sends is answered, not traced."""
    return not (record.exc_info and isinstance(record.exc_info[1], HttpProcessingError))


async def _passed_on(page: web.WebSocketResponse, child: Child) -> None:
    """Pass on what a page says as long as it is there; what no page of ours says is left out."""
    async for message in page:
        if message.type is not WSMsgType.TEXT:
            continue
        try:
            said = json.loads(message.data)
        except (ValueError, RecursionError):
            continue
        match said:
            case ["stdin", str(text)]:
                await child.send_bytes(text.encode("utf-8", "replace"))
            case ["resize", {"width": int(width), "height": int(height)}]:
                await child.set_terminal_size(*(max(1, min(1000, n)) for n in (width, height)))
            case ["ping", str() | int() | None as mark]:
                await page.send_json(["pong", mark])
            case ["focus", *_]:
                await child.focus()
            case ["blur", *_]:
                await child.blur()


_USUAL = (("width", 80), ("height", 24))


def _size(request: web.Request, name: str, usual: int) -> int:
    return max(1, min(1000, to_int(request.query.get(name, ""), usual)))


def _loader() -> Any:
    from jinja2 import FileSystemLoader

    return FileSystemLoader(_PAGE)


async def _told_to_stop() -> None:
    stop = asyncio.Event()
    if sys.platform != "win32":
        loop = asyncio.get_running_loop()
        for each in (signal.SIGINT, signal.SIGTERM, signal.SIGHUP):
            loop.add_signal_handler(each, stop.set)
    await stop.wait()
