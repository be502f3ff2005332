"""Stage 3: a procedure as a directed graph of steps with labelled ways between them."""
