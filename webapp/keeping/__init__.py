"""Keeping an office's data safe: backups, restoring them, moving to another kind of database, looking after its health."""
