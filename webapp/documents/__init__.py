"""Results and lists as text, CSV and JSON."""
