"""The knowledge base on disk: which files there are, and what is in them."""
