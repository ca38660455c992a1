"""Drawings of surfaces to scale, and the sheet for the person with the saw."""
