"""Design checks: figures and entries that have to fit together before anything is read."""
