"""A code on a page is read off the screen, as a phone held before it reads it, light and dark."""

import io
import re
from typing import Literal

import pytest
import zxingcpp
from PIL import Image
from playwright.sync_api import Browser

from tests.browser.conftest import open_page

pytestmark = pytest.mark.browser


@pytest.mark.parametrize(("size", "colours"), [("desk", "light"), ("desk", "dark"), ("phone", "dark")])
def test_the_code_of_a_second_factor_is_read_off_the_screen(
    chromium: Browser, address: str, size: str, colours: Literal["light", "dark"]
) -> None:
    page = open_page(chromium, address, size)
    page.emulate_media(color_scheme=colours)
    page.goto("/account/second")
    with Image.open(io.BytesIO(page.screenshot(full_page=True))) as picture:
        (code,) = zxingcpp.read_barcodes(picture)
    secret = page.locator(".secret").inner_text()
    page.context.close()
    assert re.fullmatch(r"otpauth://totp/.+", code.text)
    assert f"secret={secret}&" in f"{code.text}&"
