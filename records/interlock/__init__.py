"""What may be taken now, and why not: decided here, and asked by every way to the record."""
