"""`manage.py check-all`: every check and test, what it needs, and what could not be run, by name."""
