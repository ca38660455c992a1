"""Parts of screens that several steps use."""
