"""Photographs: shown to be pictures, turned upright, made no larger than a page needs, and kept as nothing but the picture.

What a camera writes beside it (place, owner, device) is not carried over, since only the pixels are.
"""

import io
import warnings
from dataclasses import dataclass
from hashlib import sha256

from PIL import Image, ImageOps, UnidentifiedImageError
from sqlalchemy import select
from sqlalchemy.orm import Session, undefer

from webapp.models import Photo, ReviewItem
from webapp.services.refusals import Missing, Refused

LONGEST_SIDE = 1600
MOST_BYTES = 12_000_000
MOST_PIXELS = 50_000_000  # of a JPEG, which is decoded at a fraction of its size
MOST_WHOLE = 24_000_000  # of what must be held whole: other kinds, and JPEGs that come in passes
KINDS = ("JPEG", "PNG", "WEBP")
QUALITY = 82
SEND_ANOTHER = "Send a photograph as the camera makes it (JPEG, PNG or WebP)."


@dataclass(frozen=True, slots=True)
class Picture:
    """A photograph as it is kept. data: JPEG."""

    data: bytes
    width: int
    height: int

    @property
    def sha256(self) -> str:
        """Of what is kept."""
        return sha256(self.data).hexdigest()


def prepare(data: bytes) -> Picture:
    """A photograph ready to be kept. Raises: Refused for what is no picture, or too large to be opened safely."""
    if len(data) > MOST_BYTES:
        raise Refused({"photo": f"This photograph is larger than {MOST_BYTES // 1_000_000} MB. Take it smaller."})
    with warnings.catch_warnings():
        warnings.simplefilter("error", Image.DecompressionBombWarning)
        try:
            return _encoded(data)
        except (Image.DecompressionBombError, Image.DecompressionBombWarning) as error:
            raise Refused({"photo": _too_many(MOST_PIXELS)}) from error
        except Refused:
            raise
        except (UnidentifiedImageError, OSError, SyntaxError, ValueError, EOFError, TypeError, OverflowError) as error:
            raise Refused({"photo": f"This file is not a whole picture. {SEND_ANOTHER}"}) from error


def _encoded(data: bytes) -> Picture:
    with Image.open(io.BytesIO(data), formats=KINDS) as image:
        pixels = image.width * image.height
        jpeg = image.format in ("JPEG", "MPO")  # some cameras put a second picture behind the first
        most = MOST_PIXELS if jpeg and not image.info.get("progressive") else MOST_WHOLE
        if pixels > most:
            raise Refused({"photo": _too_many(most)})
        if jpeg:  # decodes an eighth, a quarter or half of each side, never below what is asked
            image.draft("RGB", (LONGEST_SIDE, LONGEST_SIDE))
        upright = ImageOps.exif_transpose(image)
        upright.thumbnail((LONGEST_SIDE, LONGEST_SIDE))
        plain = Image.new("RGB", upright.size, "white")
        shown = upright.convert("RGBA") if "A" in upright.getbands() or "transparency" in upright.info else None
        plain.paste(upright.convert("RGB"), mask=shown.getchannel("A") if shown else None)
        out = io.BytesIO()
        plain.save(out, "JPEG", quality=QUALITY, optimize=True)
        return Picture(out.getvalue(), plain.width, plain.height)


def _too_many(most: int) -> str:
    return f"This picture has more than {most // 1_000_000} million points. Take it smaller."


def find(session: Session, revision_id: int, photo_id: int) -> Photo:
    """A photograph of a revision with its bytes. Raises: Missing."""
    query = (
        select(Photo)
        .join(ReviewItem, ReviewItem.id == Photo.item_id)
        .where(Photo.id == photo_id, ReviewItem.revision_id == revision_id)
        .options(undefer(Photo.data))
    )
    row = session.scalar(query)
    if row is None:
        raise Missing
    return row
