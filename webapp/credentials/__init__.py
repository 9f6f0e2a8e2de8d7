"""Passwords, one-time codes and tokens: what is handed out, and what is kept of it."""
