"""Passwords: hashed by Argon2id, two at a time; held against common ones without a word of them in the program."""

from functools import cache
from hashlib import sha256
from importlib.resources import files
from threading import BoundedSemaphore

from pwdlib import PasswordHash

# OWASP Application Security Verification Standard 5.0, 6.2.1 and 6.2.9: at least 8, at least 64 allowed.
LEAST, MOST = 8, 200
PIECE = 6  # bytes of each common password's SHA-256 in the list
# Each hash takes 64 MiB: unlimited, a crowd at the door would be an attack on memory.
AT_ONCE = BoundedSemaphore(2)


@cache
def _hasher() -> PasswordHash:
    return PasswordHash.recommended()


@cache
def _unknown() -> str:
    """The hash of a password nobody has, so that an unknown name takes as long as a wrong password."""
    return _hasher().hash(sha256(b"nobody").hexdigest())


@cache
def _common() -> frozenset[bytes]:
    data = files("webapp.credentials").joinpath("common_passwords.bin").read_bytes()
    return frozenset(data[at : at + PIECE] for at in range(0, len(data), PIECE))


def weakness(password: str, words: tuple[str, ...] = ()) -> str:
    """What to do about a password that may not be used; "" for one that may. Args: words: names it may not be made of."""
    if len(password) < LEAST:
        return f"Use at least {LEAST} characters; a few words together are good."
    if len(password) > MOST:
        return f"Use at most {MOST} characters."
    plain = password.lower()
    if sha256(plain.encode()).digest()[:PIECE] in _common() or len(set(plain)) < 4:
        return "Many people use this one, and it is tried first. Choose another."
    if any(word and len(word) > 3 and word.lower() in plain and len(plain) < len(word) + 5 for word in words):
        return "This is made of your own name or the program's. Choose another."
    return ""


def hashed(password: str) -> str:
    """A hash to keep."""
    with AT_ONCE:
        return _hasher().hash(password)


def matches(password: str, kept: str) -> bool:
    """Whether a password is the one kept; with nothing kept it takes as long and is not."""
    with AT_ONCE:
        return _hasher().verify(password[:MOST], kept or _unknown()) and bool(kept)
