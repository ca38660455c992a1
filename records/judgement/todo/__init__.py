"""The order of the work, and what is left of it."""
