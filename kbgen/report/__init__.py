"""Findings -> text for people, JSON for programs."""
