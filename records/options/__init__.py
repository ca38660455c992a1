"""What would do: cables, devices and forms tried on a copy of the record, each with its checks."""
