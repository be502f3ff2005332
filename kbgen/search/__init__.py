"""Offline search: from entries to one script file, and the same query in Python and in the browser."""
