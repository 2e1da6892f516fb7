"""What a web server serves. It refuses to serve with a key that everybody knows."""

import os

from django.core.wsgi import get_wsgi_application

from homestead import settings

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "homestead.settings")
if settings.SECRET_KEY == settings.NO_SECRET:
    raise SystemExit(
        "There is no secret key. At home `python3 manage.py start` makes one; "
        "a host sets ROUNDS_SECRET_KEY to 40 or more characters that nobody can guess."
    )
application = get_wsgi_application()
