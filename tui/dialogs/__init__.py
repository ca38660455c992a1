"""Questions and explanations that open over a step and close with an answer."""
