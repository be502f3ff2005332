"""Tests of kbgen.pictures."""
