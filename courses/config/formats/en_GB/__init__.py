"""British English."""
