"""One app for all tests of security, on a folder of ill will, and the system's Chromium."""

import pytest

from tests.browser.conftest import browser_type_launch_args, errors, outside
from tests.security.hostile import hostile_folder
from tests.security.served import Served, served

__all__ = ["browser_type_launch_args", "errors", "outside"]  # fixtures of the browser's tests


@pytest.fixture(scope="session")
def folder(tmp_path_factory):
    return hostile_folder(tmp_path_factory.mktemp("hostile") / "site")


@pytest.fixture(scope="session")
def app(folder, tmp_path_factory) -> Served:
    with served(folder, tmp_path_factory.mktemp("kept")) as running:
        yield running
