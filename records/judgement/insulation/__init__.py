"""Rules for insulation readings."""
