"""What a job is, what its meter should show, what the readings mean, and how it is kept."""
