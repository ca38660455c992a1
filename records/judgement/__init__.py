"""Rules: a reading, its expectation and its limit give a verdict and a reason."""
