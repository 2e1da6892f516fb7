"""A script, not a test: `python3 tests/bare/bare.py` proves both commands on a bare Debian 12."""
