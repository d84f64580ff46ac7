"""The phones' page as HTML: a few kilobytes, whole without its script, every name escaped."""

from collections.abc import Iterable, Mapping, Sequence
from html import escape
from string import Template

from dashboard import theme
from dashboard.join.form import TRADE_OFFS, Filled
from dashboard.join.judge import Judge
from dashboard.votes.ballots import Session
from model.group.agreement import Agreement
from model.group.agreement_words import all_points, choice
from model.group.ballot import LONGEST_NAME, Ballot
from model.language import _, language_code

PAGE = Template("""<!DOCTYPE html>
<html lang="$language">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<title>$title</title>
<link rel="stylesheet" href="/join/static/join.css">
<link rel="icon" href="data:,">
<script src="/join/static/join.js" defer></script>
</head>
<body>
<header>$header</header>
<main>
$main
</main>
</body>
</html>
""")


def page(title: str, main: str, header: str = "") -> str:
    """A whole page; `title` and `header` are plain text, `main` is HTML."""
    head = escape(header or "Treestead")
    return PAGE.substitute(language=language_code(), title=escape(title), main=main, header=head)


def entry(code: str, group: str, fault: str = "") -> str:
    """The form for code and name."""
    wrong = f'<p class="fault" role="alert">{escape(fault)}</p>' if fault else ""
    main = f"""<h1>{escape(_("Join the vote"))}</h1>
{wrong}<form method="post" action="/join">
<label for="code">{escape(_("Code on the wall"))}</label>
<input id="code" name="code" value="{escape(code)}" required maxlength="12" autocomplete="off"
 autocapitalize="characters" spellcheck="false">
<label for="group">{escape(_("A name for your group"))}</label>
<input id="group" name="group" value="{escape(group)}" required maxlength="{LONGEST_NAME}"
 autocomplete="off" aria-describedby="named">
<p id="named" class="quiet">{escape(_("Everyone sees it on the wall: it need not be yours."))}</p>
<button>{escape(_("Join"))}</button>
</form>"""
    return page(_("Join the vote"), main)


def message(said: str, code: str = "") -> str:
    """A sentence and the way back."""
    back = f"/join/vote?code={escape(code)}" if code else "/join"
    words = escape(_("Back to the vote"))
    main = f'<h1>{escape(_("The vote"))}</h1><p role="alert">{escape(said)}</p>'
    return page(_("The vote"), f'{main}<p><a class="button" href="{back}">{words}</a></p>')


def ballot(
    session: Session, judge: Judge, shown: Filled, said: tuple[str, str, str], before: Ballot | None
) -> str:
    """The ballot to be filled in; `said` is the result, when it was sent, and the first vote."""
    result, sent, first = said
    closed = session.state != "open"
    state = _("Voting is closed for now: what you sent before stands.") if closed else ""
    again = _("Another vote: change what you like and send it.") if session.round > 1 else ""
    note = " ".join(part for part in (again, first) if part)
    families = "".join(_family(judge, family, shown, before) for family in judge.families)
    main = f"""<h1>{escape(_("What should stand at {place}?").format(place=judge.place_name))}</h1>
<p id="state" role="status">{escape(state)}</p>
{f'<p class="note">{escape(note)}</p>' if note else ""}
<form id="ballot" method="post" action="/join/vote" data-state="{session.state}" {_data()}>
<input type="hidden" name="code" value="{escape(session.code)}">
<input type="hidden" name="round" value="{session.round}">
<fieldset class="all" {"disabled" if closed else ""}>
<legend class="unseen">{escape(_("Your ballot"))}</legend>
<label for="group">{escape(_("Your group"))}</label>
<input id="group" name="group" value="{escape(shown.group)}" required
 maxlength="{LONGEST_NAME}" autocomplete="off">
<h2>{escape(_("How much should each count?"))}</h2>
{families}
{_trade_off(shown)}
{_options(judge, shown)}
</fieldset>
<div class="foot">
<p id="result" role="status">{escape(result)}</p>
<button id="send" {"disabled" if closed else ""}>{escape(_("Send"))}</button>
<p id="sent" role="status">{escape(sent)}</p>
</div>
</form>"""
    return page(_("Your ballot"), main, judge.site)


def results(session: Session, judge: Judge, found: Agreement | None, own: Sequence[str]) -> str:
    """What the groups chose, and where this one stands beside them."""
    title = _("What the groups chose at {place}").format(place=judge.place_name)
    lead = f'<div id="ballot" data-state="revealed" data-round="{session.round}" {_data()}></div>'
    if found is None:
        said = f"<p>{escape(_('No ballot was sent in this round.'))}</p>"
    else:
        mine = own or [_("Your group sent no ballot in this round.")]
        said = f"{_counts(found)}<h2>{escape(_('Your group'))}</h2>{_list(mine)}"
        said += f"<h2>{escape(_('Together'))}</h2>{_list(all_points(found))}"
    main = f"<h1>{escape(title)}</h1>{said}{lead}"
    main += f'<p id="state" role="status">{escape(_("Wait here for another vote."))}</p>'
    return page(title, main, judge.site)


def _data() -> str:
    """Texts that the script says."""
    said = {
        "lost": _("No answer from the server: your settings are kept here. Trying again."),
        "sending": _("Sending."),
    }
    return " ".join(f'data-{name}="{escape(text)}"' for name, text in said.items())


def _family(judge: Judge, family: str, shown: Filled, before: Ballot | None) -> str:
    """One family's slider, its members' folded away."""
    members = judge.members(family)
    name = _(theme.family_label(family))
    about = ", ".join(one.label.lower() for one in members)
    if before is not None:
        share = sum(before.weights.get(one.name, 0.0) for one in members)
        first = _("before {share} %").format(share=f"{100 * share / _total(before):.0f}")
        about = f"{about}; {first}"
    value = shown.families[family]
    folded = escape(_("Weigh its {count} questions").format(count=len(members)))
    questions = "".join(
        _slider(f"factor-{one.name}", one.label, one.question, shown.factors[one.name], "factor")
        for one in members
    )
    return f"""<section class="family {escape(family)}" data-family="{escape(family)}">
{_slider(f"family-{family}", name, about, value, "whole")}
<details><summary>{folded}</summary>{questions}</details>
</section>"""


def _slider(name: str, label: str, about: str, value: float, kind: str) -> str:
    name = escape(name)
    return f"""<div class="slider {kind}"><label for="{name}">{escape(label)}</label>
<span class="share" data-of="{name}"></span>
<p id="{name}-about" class="quiet">{escape(about)}</p>
<input type="range" id="{name}" name="{name}" min="0" max="100" step="1" value="{value:.0f}"
 aria-describedby="{name}-about"></div>"""


def _trade_off(shown: Filled) -> str:
    choices = "".join(
        f'<label class="choice"><input type="radio" name="trade_off" value="{exponent:g}"'
        f"{' checked' if exponent == shown.trade_off else ''}> {escape(_(words))}</label>"
        for exponent, words in TRADE_OFFS
    )
    asked = escape(_("When a tree has one weak point"))
    return f"<fieldset><legend>{asked}</legend>{choices}</fieldset>"


def _options(judge: Judge, shown: Filled) -> str:
    wanted = shown.options or judge.options
    boxes = "".join(
        f'<label class="choice"><input type="checkbox" name="option" value="{escape(label)}"'
        f"{' checked' if label in wanted else ''}> {escape(label)}</label>"
        for label in judge.options
    )
    asked = escape(_("Trees to be considered (none ticked means all)"))
    legend = f'<legend class="unseen">{asked}</legend>'
    return f"<details><summary>{asked}</summary><fieldset>{legend}{boxes}</fieldset></details>"


def _counts(found: Agreement) -> str:
    """How many groups chose each option, most first."""
    order = sorted(_chosen(found.chosen), key=lambda one: -found.chosen[one])
    rows = "".join(
        f'<tr><th scope="row">{escape(found.options[one])}</th><td>{found.chosen[one]}</td></tr>'
        for one in order
    )
    common = _("The weights in common choose {options}.").format(
        options=choice(found, found.consensus)
    )
    heads = (_("Tree"), _("Groups"))
    head = "".join(f'<th scope="col">{escape(one)}</th>' for one in heads)
    caption = _("Chosen by the groups' own weights (a tie counts for each)")
    table = f"<table><caption>{escape(caption)}</caption><thead><tr>{head}</tr></thead>"
    return f"{table}<tbody>{rows}</tbody></table><p>{escape(common)}</p>"


def _chosen(counts: Iterable[int]) -> list[int]:
    """Numbers of those that are not 0."""
    return [number for number, count in enumerate(counts) if count]


def _list(sentences: Sequence[str]) -> str:
    return f"<ul>{''.join(f'<li>{escape(one)}</li>' for one in sentences)}</ul>"


def _total(before: Ballot) -> float:
    weights: Mapping[str, float] = before.weights
    return sum(weights.values())
