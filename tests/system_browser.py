"""The system's Chromium."""

import shutil

FLAGS = (
    "--no-sandbox", "--disable-gpu", "--no-first-run", "--disable-background-networking",
    "--disable-component-update", "--disable-sync",
)  # fmt: skip


def chromium() -> str | None:
    """Where the system's Chromium is, None where there is none."""
    found = map(shutil.which, ("chromium", "chromium-browser", "google-chrome"))
    return next((path for path in found if path), None)
