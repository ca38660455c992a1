"""The schedule for the certifying electrician, as a word-processor document."""
