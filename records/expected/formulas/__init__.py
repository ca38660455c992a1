"""Physics on plain numbers: no record, no rule, one formula or two a file."""
