"""Repair procedures written as YAML, checked like a program and published as a site that is searchable offline."""

__version__ = "0.1.0"
