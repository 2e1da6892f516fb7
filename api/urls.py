from django.urls import URLPattern, URLResolver, path, re_path

from api import access, jobs, minder, photos, problems, reminders, sync

urlpatterns: list[URLPattern | URLResolver] = [
    path("csrf", access.CsrfView.as_view()),
    path("session", access.SessionView.as_view()),
    path("pair", access.PairView.as_view()),
    path("codes", access.CodesView.as_view()),
    path("sign-out", access.SignOutView.as_view()),
    path("devices", access.DevicesView.as_view()),
    path("devices/<uuid:device>/revoke", access.RevokeView.as_view()),
    path("devices/<uuid:device>/people", access.DevicePeopleView.as_view()),
    path("households", access.HouseholdsView.as_view()),
    path("demo", access.DemoView.as_view()),
    path("demo/leave", access.LeaveDemoView.as_view()),
    path("jobs", jobs.JobsView.as_view()),
    path("minder", minder.MinderView.as_view()),
    path("minder/open", minder.OpenLinkView.as_view()),
    path("minder/links", minder.LinksView.as_view()),
    path("minder/links/<uuid:link>/end", minder.EndLinkView.as_view()),
    path("reminders/<uuid:person>", reminders.WishesView.as_view()),
    path("reminders/<uuid:person>/calendar", reminders.MakeCalendarView.as_view()),
    path("reminders/<uuid:person>/calendar/end", reminders.EndCalendarView.as_view()),
    path("reminders/<uuid:person>/push", reminders.PushView.as_view()),
    path("reminders/<uuid:person>/push/end", reminders.EndPushView.as_view()),
    path("calendar/<str:token>.ics", reminders.CalendarView.as_view()),
    path("photos/<str:sha256>", photos.PhotoView.as_view()),
    path("sync/push", sync.PushView.as_view()),
    path("sync/pull", sync.PullView.as_view()),
    path("sync/missing", sync.MissingView.as_view()),
    # an address with a line break in it is an address, too
    re_path(r"^[\s\S]*$", problems.not_found),
]
