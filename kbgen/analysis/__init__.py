"""Stage 5: what follows from a procedure: power state along its paths, what is needed where, what others must know."""
