"""How the wizard draws for a page, and that it never outlives the server."""

from __future__ import annotations

import os
import signal
import sys
from typing import Any

from textual.app import App
from textual.drivers.web_driver import WebDriver
from textual.messages import ExitApp


class PageDriver(WebDriver):
    """Leaves as a closed window does, drafts kept, once nobody is at the other end."""

    def __init__(
        self,
        app: App[Any],
        *,
        debug: bool = False,
        mouse: bool = True,
        size: tuple[int, int] | None = None,
    ) -> None:
        super().__init__(app, debug=debug, mouse=mouse, size=size)
        self._write = self._write_or_drop  # type: ignore[assignment]

    def run_input_thread(self) -> None:
        """Take what is typed; when the server is gone, however it ended, leave."""
        super().run_input_thread()
        if not self.exit_event.is_set():
            self._leave()

    def on_meta(self, packet_type: str, payload: dict[str, object]) -> None:
        """Take what the server says beside what is typed."""
        if packet_type == "quit":
            self._leave()
        else:
            super().on_meta(packet_type, payload)

    def _leave(self) -> None:
        if sys.platform == "win32":
            self._app.post_message(ExitApp())
        else:
            os.kill(os.getpid(), signal.SIGTERM)  # the wizard keeps drafts when it gets this

    def _write_or_drop(self, data: bytes) -> int:
        try:
            return os.write(self.fileno, data)
        except BrokenPipeError:
            return len(data)
