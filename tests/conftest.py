"""Settings for all tests."""

from hypothesis import settings

settings.register_profile("treestead", deadline=None)  # shared machines stall; promises do not
settings.load_profile("treestead")
