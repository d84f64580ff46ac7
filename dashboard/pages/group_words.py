"""What the teacher reads on the group's page."""

from html import escape

from dashboard import theme
from dashboard.join.door import join_address, picture
from dashboard.join.subject import Subject
from dashboard.votes.ballots import Session as Vote
from model.language import _
from model.study import Study


def invitation(study: Study, private: bool = True) -> str:
    """What a vote is, before one is begun; `private` while only this machine reaches the app."""
    place = study.ground.places.name(study.place)
    lines = (
        _("Up to forty groups give their own weights on their phones; nobody sees another's until "
          "you reveal them."),
        _("Everyone judges one place: {place}, the one chosen now. Choose another on the page "
          "Weigh first if you like.").format(place=place),
        *([_network()] if private else ()),
    )  # fmt: skip
    said = "".join(f"<p>{escape(line)}</p>" for line in lines)
    return f"<h1>{escape(_('Vote as a group'))}</h1>{said}"


def _network() -> str:
    return _(
        "Phones must be on the same network as this machine (the same Wi-Fi, or this machine's "
        "own hotspot). No internet is needed. When you start, this machine begins to listen on "
        "that network, for the vote and nothing else; its firewall may ask you to allow it."
    )


def standing(vote: Vote, subject: Subject, place: str, count: int) -> str:
    """How the vote stands."""
    state = {
        "open": _("Vote {round} is open."),
        "frozen": _("Vote {round} is frozen: nothing can be sent."),
        "revealed": _("Vote {round} is revealed: everyone sees what came of it."),
    }[vote.state].format(round=vote.round)
    sent = _("1 ballot has arrived.") if count == 1 else _("{count} ballots have arrived.")
    asked = _("What should stand at {place}?").format(place=place)
    said = f"{subject.site}: {state} {sent.format(count=count)}"
    return f'<h1>{escape(asked)}</h1><p role="status">{escape(said)}</p>'


def joining(vote: Vote, base: str, addresses: tuple[str, ...]) -> str:
    """The code, the picture and the address that phones need.

    `addresses` are this machine's on its networks; none where phones come by a public address.
    """
    address = join_address(base, vote.code)
    others = [one for one in addresses if one not in base]
    more = ""
    if others:
        said = _("This machine's other addresses: {addresses}.")
        more = f"<p>{escape(said.format(addresses=', '.join(others)))}</p>"
    note = ""
    if addresses:
        note = _(
            "Phones must be on the same network as this machine. If none can join, try another "
            "address, and see that the firewall allows it."
        )
    return f"""<h2>{escape(_("How to join"))}</h2>
<p class="code">{escape(vote.code)}</p>
<div class="qr">{picture(address)}</div>
<p class="address">{escape(address)}</p>{more}<p class="quiet">{escape(note)}</p>"""


FRAME = ":host { padding: 4px 18px 60px; box-sizing: border-box; }"
JOINING = f"""
.code {{ font-size: 64px; line-height: 1.1; font-weight: 700; letter-spacing: 0.1em; }}
.qr {{ width: 220px; filter: var(--as-is, none); }} .qr svg {{ display: block; width: 100%; }}
.quiet {{ color: {theme.QUIET}; }}
"""
