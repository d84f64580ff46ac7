"""A workshop at once: people at the app, people at their phones, all real sessions of one server.

python -m tests.speed.load says what it measured, and ends with 1 when a promise was broken.
"""
