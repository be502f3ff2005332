"""One module per command: its name, its help, its arguments and what it does."""
