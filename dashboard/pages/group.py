"""Group: the teacher begins a vote, people join on their phones, and all see what came of it."""

from collections.abc import Callable
from typing import Any

import panel as pn

from dashboard.join.door import opened_door
from dashboard.join.reach import base_of, own_addresses
from dashboard.join.subject import Subject
from dashboard.join.voting import Voting
from dashboard.pages import group_words as words
from dashboard.pages.group_controls import Controls
from dashboard.pages.group_keys import Held, Keys
from dashboard.pages.group_results import LOOK, Results
from dashboard.pages.page import Page
from dashboard.session import Session
from dashboard.votes.ballots import Refused, Unreached
from dashboard.votes.ballots import Session as Vote
from model.language import _

EVERY = 1000  # ms between two looks at the store


class Group(Page):
    """The teacher's page. Only it holds the owner's key, without which nothing can be steered."""

    path = "group"
    label = "Group"
    about = (
        "Begin a vote on the chosen place: people give their weights on their own phones, and the "
        "wall shows what they agree on."
    )

    def __init__(self, session: Session, **choices: Any) -> None:
        super().__init__(session, **choices)
        self.voting = None if session.opened is None else Voting.of(session.opened)
        self.keys = Keys(session.copy)
        self.held: Held | None = self.keys.held()
        self.vote: Vote | None = None
        self.controls = Controls(self)
        self.head = pn.pane.HTML("", stylesheets=[LOOK], **WIDE)
        self.joining = pn.pane.HTML("", stylesheets=[LOOK, words.JOINING], **WIDE)
        self.results = Results(size=13, brief=False)
        for pane in (self.results.choices, self.results.said, self.results.caption):
            pane.stylesheets = [LOOK]
        self.results.spread.param.update(sizing_mode="stretch_width", height=700)
        self.main = pn.Column(
            self.head,
            self.controls.begin,
            pn.FlexBox(*self._columns(), gap="12px 32px", margin=0, sizing_mode="stretch_width"),
            sizing_mode="stretch_both",
            stylesheets=[words.FRAME],
            scroll="y",
            margin=0,
        )
        self._take_up()
        self.look()
        self._follow()

    def _columns(self) -> tuple[pn.Column, ...]:
        """How to join, the controls, and what came of it, side by side where there is room."""
        results = self.results
        self.join_column = pn.Column(self.joining, self.controls.address, width=340, margin=0)
        self.steer_column = pn.Column(*self.controls.steering, width=340, margin=0)
        self.result_column = pn.Column(
            results.choices, results.spread, results.said, margin=0, styles={"flex": "1 1 520px"}
        )
        return self.join_column, self.steer_column, self.result_column

    def begin(self) -> None:
        """Begin a vote on the place that is chosen, and open the door for phones."""
        voting, study = self.voting, self.session.study
        folder = self.session.folder
        if voting is None or folder is None:
            self.session.said = _("A vote needs the app as a server: treestead serve.")
            return
        if not study.ground.places.inside[study.place]:
            self.session.said = _("The chosen place is outside the boundary: choose another.")
            return
        try:
            key = voting.store.new_session(Subject.chosen(study, folder).text)
        except Refused as error:
            self.session.said = str(error)
            return
        self._hold(Held(key.code, key.owner, self._base()))
        self.look()
        vote = voting.session(key.code)
        ready = _("Phones can join now.")
        self.session.run(
            _("making the land ready for the phones"),
            lambda _say: voting.judge(vote),
            lambda _judge: setattr(self.session, "said", ready),
        )

    def end(self) -> None:
        """Leave this vote, its ballots deleted, so that another can be begun."""
        held, voting = self.held, self.voting
        if held is not None and voting is not None:
            try:
                voting.store.forget(*held.key)
            except Unreached as error:
                self.session.said = str(error)
                return
            except Refused as error:
                self.session.said = str(error)
        self._drop()
        self.look()

    def steer(self, act: str, *more: str) -> None:
        """Freeze, open, reveal and so on: whatever the store lets the owner do."""
        held, voting = self.held, self.voting
        if held is None or voting is None:
            return
        self.session.said = ""
        self._tried(lambda: getattr(voting.store, act)(*held.key, *more))
        voting.stale(held.code)
        self.look()

    def tell(self, address: str) -> None:
        """Tell phones another address, since a machine may have several."""
        base = base_of(address)
        if base is None:
            self.session.said = _("That is no address: type one such as http://192.168.1.20:5011.")
        elif self.held is not None:
            self._hold(Held(self.held.code, self.held.owner, base))
        self.draw()

    def export(self) -> str:
        """All ballots as CSV."""
        assert self.voting is not None  # noqa: S101 -- the button is there only with a vote
        assert self.held is not None  # noqa: S101 -- as above
        return self.voting.store.export_csv(self.held.code)

    def refresh(self) -> None:
        """Show the vote as it now is."""
        self.look()

    def look(self) -> None:
        """See whether anything changed, and show it."""
        if self.held is not None and self.voting is not None:
            try:
                self.vote = self.voting.store.session(self.held.code)
            except Unreached as error:  # the vote is still there, and its key must not be lost
                self.session.said = str(error)
                return
            except Refused as error:
                self.session.said = str(error)
                self._drop()
        self._tried(self.draw)

    def glance(self) -> None:
        """As `look`, but only when the page is in view and something changed."""
        if self.held is None or self.voting is None or self.session.page != self.path:
            return
        seen = self.vote.version if self.vote else 0
        try:
            changed = self.voting.store.changed_since(self.held.code, seen)
        except Refused:
            changed = None
        if changed is not None:
            self.vote = changed
            self._tried(self.draw)

    def draw(self) -> None:
        """Write the vote into all that shows it."""
        vote, held = self.vote, self.held
        under_way = vote is not None
        with pn.io.hold():
            self.join_column.visible = self.steer_column.visible = under_way
            if vote is None or held is None or self.voting is None:
                private = self.voting is None or self.voting.reach.private
                self.head.object = words.invitation(self.session.study, private)
                self.controls.show(None, [], "")
                self.result_column.visible = False
                return
            names = [ballot.group for ballot in self.voting.store.ballots(vote.code)]
            subject = Subject.read(vote.site)
            self.head.object = words.standing(vote, subject, self._place_name(subject), len(names))
            others = () if self.voting.reach.public else own_addresses()
            self.joining.object = words.joining(vote, held.base, others)
            self.controls.show(vote, names, held.base)
            self.result_column.visible = vote.state == "revealed" and bool(names)
        if self.result_column.visible:
            self._reckon(vote)

    def _reckon(self, vote: Vote) -> None:
        """Reckon the agreement off the loop and show it, unless the vote has moved on."""
        voting = self.voting
        assert voting is not None  # noqa: S101 -- there is no vote without one

        def work(_say: Callable[[str], None]) -> Any:
            found = voting.agreement(vote, vote.round)
            return voting.study(vote), found, voting.movement(vote)

        def show(result: Any) -> None:
            if self.vote == vote and result[1] is not None:
                self.results.show(*result)

        self.session.run(_("reckoning what the groups agree on"), work, show)

    def _place_name(self, subject: Subject) -> str:
        study = self.session.study
        return study.ground.places.name(subject.place(study))

    def _base(self) -> str:
        """The address of the door for phones, opened now; a sentence where it cannot be.

        Where phones reach the app itself there is no door.
        """
        assert self.voting is not None  # noqa: S101 -- asked for with a vote only
        if not self.voting.reach.private:
            return self.voting.reach.base
        host = (*own_addresses(), "localhost")[0]
        try:
            return f"http://{host}:{opened_door(self.voting)}"
        except OSError as error:
            self.session.said = str(error)
            return f"http://{host}:{self.voting.reach.port}"

    def _take_up(self) -> None:
        """Open the door again for a vote that outlived the page or the server."""
        if self.held is not None and self.voting is not None:
            base = self._base()
            if not (self.held.base and self.voting.reach.private):
                self._hold(Held(self.held.code, self.held.owner, base))

    def _follow(self) -> None:
        document = pn.state.curdoc
        if document is not None and document.session_context:
            pn.state.onload(self._begin_to_look)

    def _begin_to_look(self) -> None:
        pn.state.add_periodic_callback(self.glance, period=EVERY)

    def _hold(self, held: Held) -> None:
        self.held = held
        try:
            self.keys.keep(held)
        except OSError as error:
            why = error.strerror
            said = _("The key to this vote could not be kept ({why}): do not reload this page.")
            self.session.said = said.format(why=why)

    def _drop(self) -> None:
        self.held = self.vote = None
        self.keys.drop()

    def _tried(self, act: Callable[[], Any]) -> None:
        """Do it, or say why it cannot be done."""
        try:
            act()
        except Refused as error:
            self.session.said = str(error)


WIDE: dict[str, Any] = {"margin": 0, "sizing_mode": "stretch_width"}
