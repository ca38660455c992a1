"""The record on disk: one file, an append-only chain of changes."""
