"""What was typed on a page, kept as typed, and what is wrong with it; one module a page."""
