"""What the bench knows without a screen: order, wording, and how typed text becomes a reading."""
