"""Stage 2: the tree of a file becomes plain frozen dataclasses in the trade's words."""
