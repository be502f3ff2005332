"""Stage 9: pages become files. Nothing outside this package writes the site."""
