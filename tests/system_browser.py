"""The system's Chromium."""

import shutil

FLAGS = (
    "--no-sandbox", "--disable-gpu", "--no-first-run", "--disable-background-networking",
    "--disable-component-update", "--disable-sync",
)  # fmt: skip


def chromium() -> str | None:
    """Where the system's Chromium is, None where there is none.

    The one without windows of its own is taken first: it draws the same for two thirds of the work.
    """
    names = ("chromium-headless-shell", "chromium", "chromium-browser", "google-chrome")
    found = map(shutil.which, names)
    return next((path for path in found if path), None)
