"""Secrets handed out once; only their hashes are kept (they hold 128 bits and more, so a plain hash is enough)."""

import secrets
from hashlib import sha256

ALPHABET = "ABCDEFGHJKMNPQRSTUVWXYZ23456789"  # without what is mistaken for something else


def new_token() -> str:
    """256 random bits, safe in an address."""
    return secrets.token_urlsafe(32)


def new_code() -> str:
    """A code somebody types once: 24 letters in groups of six, 118 random bits."""
    letters = [secrets.choice(ALPHABET) for _ in range(24)]
    return "-".join("".join(letters[at : at + 6]) for at in range(0, 24, 6))


def digest(secret: str) -> str:
    """What is kept of a token."""
    return sha256(secret.encode()).hexdigest()


def code_digest(code: str) -> str:
    """What is kept of a code, however it was spaced or written."""
    return digest("".join(letter for letter in code.upper() if letter.isalnum()))
