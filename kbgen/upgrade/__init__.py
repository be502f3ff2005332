"""Moving files to the present version of the format, without touching what did not change."""
