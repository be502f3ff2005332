"""The commented skeleton from which a new procedure is written."""
