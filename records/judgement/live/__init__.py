"""Rules for readings with the supply on, loops apart: voltages, RCDs, loads."""
