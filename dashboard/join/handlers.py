"""What phones may ask of the server: plain requests, small, none of them on another's behalf."""

import json
import re
from collections.abc import Awaitable
from pathlib import Path
from typing import Any
from urllib.parse import parse_qs, quote, unquote, urlencode, urlsplit

from tornado.web import HTTPError, RequestHandler, StaticFileHandler, stream_request_body

from dashboard.join import answers, form
from dashboard.join.pace import Pace
from dashboard.join.voting import Voting
from dashboard.votes.ballots import Refused, Session, new_token
from model.group.ballot import LONGEST_NAME, BallotFaults, plain_name
from model.language import _

BODY = 16_384  # bytes of a form with every field filled in, several times over
FIELDS = 400
TOKEN, NAME = "treestead_ballot", "treestead_group"  # cookies
WELL_FORMED = re.compile(r"[A-Za-z0-9_-]{32,64}")
DAYS = 2  # for which a phone is known again
STATIC = Path(__file__).parent / "static"
PHONE = Pace(at_once=30, a_second=4)
ADDRESS = Pace(at_once=600, a_second=120)  # a whole class may stand behind one address
WRONG = Pace(at_once=120, a_second=1)  # codes that there are not, by address: a code is short
GUARDS = {
    "Content-Security-Policy": (
        "default-src 'none'; script-src 'self'; style-src 'self'; connect-src 'self'; "
        "img-src data:; form-action 'self'; base-uri 'none'; frame-ancestors 'none'"
    ),
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "same-origin",
    "Cache-Control": "no-store",
}


def patterns(voting: Voting) -> list[tuple[Any, ...]]:
    """The routes of the vote, for a server to add to its own."""
    given = {"voting": voting}
    return [
        (r"/join/?", Entry, given),
        (r"/join/vote", Vote, given),
        (r"/join/result", Result, given),
        (r"/join/state", State, given),
        (r"/join/static/(join\.(?:css|js))", Static, {"path": str(STATIC)}),
    ]


class Static(StaticFileHandler):
    """The style and script of the page."""

    def set_extra_headers(self, path: str) -> None:  # noqa: ARG002 -- as Tornado calls it
        """Let phones ask whether it changed, and take it for nothing else."""
        self.set_header("X-Content-Type-Options", "nosniff")
        self.set_header("Cache-Control", "no-cache")


@stream_request_body
class Asked(RequestHandler):
    """A request of a phone, let through when it is small, its own and not one of too many."""

    def initialize(self, voting: Voting) -> None:
        """The votes that this server knows about."""
        self.voting, self.body, self.taken = voting, b"", False

    def set_default_headers(self) -> None:
        """What the browser must not let others do with the page."""
        for name, value in GUARDS.items():
            self.set_header(name, value)

    def prepare(self) -> Awaitable[None] | None:
        """Refuse what is too much, too often or sent from another page."""
        connection: Any = self.request.connection
        connection.set_max_body_size(BODY)
        address, token = str(self.request.remote_ip), self.token
        if not ADDRESS.allows(address) or (token and not PHONE.allows(token)):
            self.set_header("Retry-After", "2")
            raise HTTPError(429)
        if self.request.method == "POST" and not self.own_page:
            raise HTTPError(403)
        return None

    def data_received(self, chunk: bytes) -> None:
        """A part of the form; its size was limited before it came."""
        self.body += chunk

    @property
    def own_page(self) -> bool:
        """Whether a form was sent by a page of this very server."""
        sender = self.request.headers.get("Origin") or self.request.headers.get("Referer") or ""
        public = urlsplit(self.voting.reach.public).netloc
        return urlsplit(sender).netloc.lower() in {self.request.host.lower(), public} - {""}

    @property
    def token(self) -> str:
        """What the phone was given to send its ballot by; empty when it has none yet."""
        token = self.get_cookie(TOKEN) or ""
        return token if WELL_FORMED.fullmatch(token) else ""

    @property
    def group(self) -> str:
        """The name that the phone's group chose; empty when it has none yet."""
        return plain_name(unquote(self.get_cookie(NAME) or ""))[:LONGEST_NAME]

    @property
    def code(self) -> str:
        """The code that the request is about, as people type it, nothing in it but letters."""
        typed = self.fields.get("code", [""])[0] or self.get_query_argument("code", "")
        return "".join(one for one in typed.upper() if one.isalnum())[:12]

    @property
    def fields(self) -> dict[str, list[str]]:
        """The form that was sent; HTTPError when it is none."""
        try:
            return parse_qs(self.body.decode("utf-8"), max_num_fields=FIELDS)
        except ValueError as error:
            raise HTTPError(400) from error

    @property
    def by_script(self) -> bool:
        """Whether the page's script asks, which wants a sentence and not a page."""
        return self.request.headers.get("X-Requested-With", "") == "script"

    async def session(self) -> Session:
        """The session that the request is about; Refused where there is none."""
        try:
            return await self.voting.off(self.voting.session, self.code)
        except Refused:
            if not WRONG.allows(str(self.request.remote_ip)):
                raise HTTPError(429) from None
            raise

    def remember(self, group: str) -> None:
        """Let the phone be known again, by nothing that a script or another site can read."""
        kept: dict[str, Any] = {
            "path": "/join",
            "httponly": True,
            "samesite": "Strict",
            # Counted by the phone's own clock: by the server's, if wrong, it would be over at once.
            "expires_days": None,
            "max_age": DAYS * 86_400,
        }
        kept["secure"] = self.voting.reach.secure or self.request.protocol == "https"
        self.set_cookie(TOKEN, self.token or new_token(), **kept)
        self.set_cookie(NAME, quote(group), **kept)

    def answer(self, **said: Any) -> None:
        """Answer the page's script."""
        self.set_header("Content-Type", "application/json; charset=UTF-8")
        self.finish(json.dumps(said))

    def to_vote(self) -> None:
        """Send the phone on to its ballot."""
        self.redirect(f"/join/vote?{urlencode({'code': self.code})}", status=303)

    def write_error(self, status_code: int, **_kept: Any) -> None:
        """A sentence, and nothing of what went on inside."""
        said = {
            400: _("What was sent could not be read: load the page again."),
            403: _("This was not sent from the vote's own page: open it and send again."),
            404: _("There is nothing here: go to the page where the code is typed."),
            429: _("That was too often: wait a moment."),
        }.get(status_code, _("Something went wrong here: try again in a moment."))
        if self.by_script:
            self.answer(fault=said)
        else:
            self.finish(answers.message(said, self.code if status_code != 400 else ""))


class Entry(Asked):
    """Code and name: the way in."""

    async def get(self) -> None:
        """The form for code and name; a phone that is known goes on to its ballot."""
        if self.token and self.group and self.code and "change" not in self.request.arguments:
            self.to_vote()
            return
        self.finish(answers.entry(self.code, self.group))

    async def post(self) -> None:
        """Take the name and give the phone a token of its own."""
        group = plain_name(self.fields.get("group", [""])[0])
        try:
            await self.session()
            form.ballot_of(answers.NO_LAND, {}, group, 1)
        except (Refused, BallotFaults) as error:
            self.set_status(409)
            self.finish(answers.entry(self.code, group[:LONGEST_NAME], str(error)))
            return
        self.remember(group)
        self.to_vote()


class Vote(Asked):
    """The ballot of one phone, or what came of all of them."""

    async def get(self) -> None:
        """The page as the vote stands."""
        if not (self.token and self.group):
            self.redirect(f"/join?{urlencode({'code': self.code})}", status=303)
            return
        try:
            session = await self.session()
        except Refused as error:
            self.set_status(404)
            self.finish(answers.entry("", self.group, str(error)))
            return
        page = await self.voting.off(answers.vote, self.voting, session, self.token, self.group)
        self.finish(page)

    async def post(self) -> None:
        """Keep the ballot under the phone's own token; it is on disk when this answers."""
        if not self.token:
            raise HTTPError(403)
        group = plain_name(self.fields.get("group", [self.group])[0])
        try:
            session = await self.session()
            kept, said = await self.voting.off(
                answers.cast, self.voting, session, self.token, self.fields, group
            )
        except (Refused, BallotFaults) as error:
            self.set_status(409)
            if self.by_script:
                self.answer(fault=str(error))
            else:
                self.finish(answers.message(str(error), self.code))
            return
        self.remember(kept.group)
        if self.by_script:
            self.answer(said=said)
        else:
            self.to_vote()


class Result(Asked):
    """One sentence: what the form would come to."""

    async def post(self) -> None:
        """The sentence; nothing is kept."""
        try:
            session = await self.session()
            said = await self.voting.off(answers.result, self.voting, session, self.fields)
        except (Refused, BallotFaults) as error:
            self.answer(said=str(error))
        else:
            self.answer(said=said)


class State(Asked):
    """Whether the page a phone shows is still the right one."""

    async def get(self) -> None:
        """The state and round."""
        try:
            session = await self.session()
        except Refused as error:
            self.answer(fault=str(error))
        else:
            self.answer(state=session.state, round=session.round)
