"""Pictures from authors, made safe and small enough for a page: drawings, photos, numbered callouts."""
