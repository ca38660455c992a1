"""Lets `python -m tui` stand for `farboard`."""

from tui.commands import main

main()
