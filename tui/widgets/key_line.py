"""The line of keys at the foot, drawn as one: a widget for each key is slow to open a screen."""

from __future__ import annotations

from textual import events
from textual.content import Content
from textual.screen import Screen

from tui.widgets.still import Still


class KeyLine(Still):
    """The keys that act on this screen now; each can be clicked."""

    ALLOW_SELECT = False

    def __init__(self) -> None:
        super().__init__()
        self._keys: tuple[tuple[str, str, str, bool], ...] = ()
        """Of each: the key, how it is written, what it does, whether it acts now."""

    def on_mount(self) -> None:
        """Follow what the screen binds."""
        self.screen.bindings_updated_signal.subscribe(self, self._follow)
        self.app.screen_change_signal.subscribe(self, self._give_way)

    def render(self) -> Content:
        """Return the line; what does not fit is cut."""
        parts: list[Content] = []
        for _, written, does, acts in self._keys:
            parts += [
                Content.styled(written, "bold $primary" if acts else "$quiet"),
                Content.styled(f" {does} ", "" if acts else "$quiet"),
            ]
        return Content.assemble(*parts)

    def on_click(self, event: events.Click) -> None:
        """Do what the key under the pointer does."""
        end = 0
        for key, written, does, _ in self._keys:
            start, end = end, end + len(written) + len(does) + 2
            if start <= event.x < end - 1:
                self.app.simulate_key(key)

    def _give_way(self, shown: Screen[object]) -> None:
        """Say nothing under a dialog, which has keys of its own."""
        self.visible = shown is self.screen

    def _follow(self, screen: Screen[object]) -> None:
        if not (self.is_attached and screen is self.screen):
            return
        first: dict[str, tuple[str, str, str, bool]] = {}
        for _, binding, acts, _ in screen.active_bindings.values():
            if binding.show:
                written = self.app.get_key_display(binding)
                first.setdefault(binding.action, (binding.key, written, binding.description, acts))
        keys = tuple(first.values())
        if keys != self._keys:
            self._keys = keys
            self.refresh()
