"""Stage 1: YAML text becomes a tree of values that know their line and column."""
