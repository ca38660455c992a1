"""The wizard's process behind a page."""

from __future__ import annotations

import asyncio
import os
import signal
import sys
from asyncio.subprocess import PIPE, Process
from collections.abc import Awaitable, Callable, Sequence

from aiohttp import web
from textual_serve.app_service import AppService
from textual_serve.download_manager import DownloadManager

TOUCH = "FARBOARD_TOUCH"
"""Set for a wizard that is worked by a finger."""
PATIENCE = 5.0
"""Seconds that a wizard has to keep drafts and close its record, before it is ended."""


class Child(AppService):
    """One wizard; it has a process group of its own, and ends when it is told to."""

    def __init__(
        self,
        words: Sequence[str],
        page: web.WebSocketResponse,
        downloads: DownloadManager,
        *,
        touch: bool = False,
    ) -> None:
        """Prepare a wizard for a page.

        Args:
            words: What to run.
            page: The connection to the page.
            downloads: Hands files to the page.
            touch: Whether the page is worked by a finger.
        """
        super().__init__(
            "",
            write_bytes=_while_open(page, page.send_bytes),
            write_str=_while_open(page, page.send_str),
            close=self._closed,
            download_manager=downloads,
        )
        self._words, self._page, self._touch = tuple(words), page, touch

    async def stop(self) -> None:
        """Let the wizard keep what was typed, and see that it ends; twice does no harm."""
        task, process = self._task, self._process
        if task is None or process is None:
            return
        await self._download_manager.cancel_app_downloads(app_service_id=self.app_service_id)
        if process.returncode is None:
            if sys.platform == "win32":
                await self.send_meta({"type": "quit"})
            else:
                process.terminate()
            try:
                await asyncio.wait_for(process.wait(), PATIENCE)
            except TimeoutError:
                _end(process)
                await self._closed()  # it can't tell its page any more
        await task
        self._task = None

    async def _open_app_process(self, width: int = 80, height: int = 24) -> Process:
        # Words, not a shell line: a file may be called anything.
        environment = self._build_environment(width=width, height=height)
        if self._touch:
            environment[TOUCH] = "1"
        environment["TEXTUAL_DRIVER"] = "tui.serving.driver:PageDriver"
        self._process = process = await asyncio.create_subprocess_exec(
            *self._words,
            stdin=PIPE,
            stdout=PIPE,
            stderr=PIPE,
            env=environment,
            start_new_session=True,  # Ctrl-C at the server's terminal is the server's to deal with
        )
        self._stdin = process.stdin
        return process

    async def _closed(self) -> None:
        await self._page.close()


def _while_open(
    page: web.WebSocketResponse, send: Callable[..., Awaitable[None]]
) -> Callable[..., Awaitable[None]]:
    """Return what sends to a page, and drops what comes after it has gone: the wizard has to be
    listened to until its end, or it could not end.
    """

    async def sent(data: bytes | str) -> None:
        if not page.closed:
            try:
                await send(data)
            except ConnectionError:
                return

    return sent


def _end(process: Process) -> None:
    try:
        if sys.platform == "win32":
            process.kill()
        else:
            os.killpg(process.pid, signal.SIGKILL)
    except ProcessLookupError:
        return
