"""Stage 4: one rule, one module, one code, one page of documentation with a bad and a good example."""
