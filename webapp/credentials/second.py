"""The second factor: a code of six digits that a device makes anew every half minute (RFC 6238)."""

import hmac
import re
from datetime import datetime

import pyotp

STEP_S = 30
DRIFT_STEPS = 2  # how far apart the steps of two codes can lie that are good at one moment


def new_secret() -> str:
    """A secret for a device, 160 random bits."""
    return pyotp.random_base32()


def whole(secret: str) -> bool:
    """Whether a secret is one of those: nobody may choose a shorter one."""
    return re.fullmatch("[A-Z2-7]{32}", secret) is not None


def address(secret: str, name: str) -> str:
    """What a device reads from a code to scan."""
    return pyotp.TOTP(secret).provisioning_uri(name=name, issuer_name="Wallseat")


def used_step(secret: str, code: str, at: datetime, last: int) -> int | None:
    """The step a code belongs to, one step of drift allowed; None for a wrong one, or one not newer than the last used.

    A last step that lies ahead was noted while the clock was wrong and bars nothing.
    """
    typed = "".join(letter for letter in code if letter.isdigit())
    now = int(at.timestamp()) // STEP_S
    otp = pyotp.TOTP(secret)
    for step in (now - 1, now, now + 1):
        if hmac.compare_digest(otp.at(step * STEP_S), typed) and not step <= last <= step + DRIFT_STEPS:
            return step
    return None
