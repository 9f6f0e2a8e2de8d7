"""JSON over the same services."""
