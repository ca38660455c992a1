"""What a record says: pydantic models and the catalogue of measurements; no computing."""
