"""Who comes to the app: a browser known by a cookie that no script and no other site reads."""

from typing import Any

from bokeh.server.auth_provider import NullAuth
from bokeh.server.views.autoload_js_handler import AutoloadJsHandler
from bokeh.server.views.doc_handler import DocHandler
from bokeh.server.views.session_handler import SessionHandler
from tornado.web import HTTPError, RequestHandler

from dashboard.join.reach import HOST
from dashboard.keeping.working_copy import VISITOR, new_visitor
from dashboard.visits.turns import Turns

COOKIE = "treestead"
DAYS = 365
HANDED = ("bokeh-session-id", "bokeh-token")
# The app draws with scripts that the server sends along, and speaks to that server alone.
POLICY = (
    "default-src 'self' data: blob: 'unsafe-inline'; script-src 'self' blob: 'unsafe-inline' "
    "'unsafe-eval'; connect-src 'self' data: blob: ws://{host} wss://{host}; object-src 'none'; "
    "base-uri 'none'; form-action 'self'; frame-ancestors 'none'"
)
GUARDS = {"X-Content-Type-Options": "nosniff", "Referrer-Policy": "same-origin"}


class Visitors(NullAuth):
    """Gives each new browser a name before its page is made.

    A session that was begun elsewhere is never taken up from a link: whoever sent the link would
    sit in the same session.
    """

    def __init__(self, secure: bool) -> None:
        self._secure = secure
        self._turns = Turns()
        super().__init__()

    @property
    def get_user(self) -> None:
        """Nothing is asked at once; see `get_user_async`."""

    @property
    def get_user_async(self) -> Any:
        """What Bokeh asks before it answers a request for a page, a script or a websocket."""
        return self._known

    @property
    def login_url(self) -> str:
        """Asked for beside `get_user`; never used, since everyone is let in."""
        return "/"

    async def _known(self, handler: RequestHandler) -> str:
        if isinstance(handler, AutoloadJsHandler):  # for pages of other sites
            raise HTTPError(404)
        if isinstance(handler, SessionHandler):
            arguments = handler.request.arguments
            if "Bokeh-Session-Id" in handler.request.headers or any(map(arguments.get, HANDED)):
                raise HTTPError(403)
        if isinstance(handler, DocHandler):
            self._guard(handler)
            self._greet(handler)
            await self._turns.mine()
        return "visitor"

    def _guard(self, handler: RequestHandler) -> None:
        """Tell the browser what the page may do and who may frame it."""
        if not HOST.fullmatch(handler.request.host):
            raise HTTPError(400)
        handler.set_header("Content-Security-Policy", POLICY.format(host=handler.request.host))
        for name, value in GUARDS.items():
            handler.set_header(name, value)

    def _greet(self, handler: RequestHandler) -> None:
        """Keep the visitor's name for another year, or give one that nobody can guess."""
        known = handler.get_cookie(COOKIE) or ""
        name = known if VISITOR.fullmatch(known) else new_visitor()
        jar: Any = handler.request.cookies
        jar[COOKIE] = name  # what the session reads
        # Lax: who follows a link to the app from elsewhere finds their own copy.
        # By the browser's own clock: a date by a server's clock that is wrong may be over already.
        lasting: dict[str, Any] = {"expires_days": None, "max_age": DAYS * 86_400}
        handler.set_cookie(
            COOKIE, name, httponly=True, samesite="Lax", secure=self._secure, **lasting
        )
