"""Physics: what the meter should show, from plain numbers; `plan` walks a record and calls it."""
