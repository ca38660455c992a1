"""Rules on where cables are: zones, timber, screws, the ground, and what may be covered."""
