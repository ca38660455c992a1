"""What would put a finding right, what was done about it, and which tests that asks for."""
