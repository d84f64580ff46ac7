"""Settings for all tests."""

import os
import tempfile

from hypothesis import settings

settings.register_profile("treestead", deadline=None)  # shared machines stall; promises do not
settings.load_profile("treestead")
os.environ.setdefault("TREESTEAD_CACHE", tempfile.mkdtemp(prefix="treestead-tests-"))
os.environ.setdefault("TREESTEAD_DATA", tempfile.mkdtemp(prefix="treestead-tests-"))
