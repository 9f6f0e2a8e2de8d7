"""Canadian rules, one module a chapter subject."""
