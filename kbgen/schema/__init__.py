"""JSON Schema for editors, derived from the same declarations as the decoder."""
