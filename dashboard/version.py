"""The version, here and nowhere else: the wheel, the command line and the report read it."""

VERSION = "0.1.0"
