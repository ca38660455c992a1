"""Rules for loop, fault current and electrode readings."""
