"""The word-processor template of the schedule, as code: its look, its pieces, its sheets."""
