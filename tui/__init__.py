"""The walk: screens and commands on top of `records`."""
