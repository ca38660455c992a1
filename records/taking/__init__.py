"""What can be read next, in which order and with which caution, and how it goes on record."""
