"""One line that says where things are, as the trade says it, becomes changes of the record."""
