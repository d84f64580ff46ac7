"""The system's Chromium, as the tests of the pages use it."""

from tests.browser.conftest import browser_type_launch_args

__all__ = ["browser_type_launch_args"]
