"""What the groups agree on, as the teacher's page and the wall show it once it is revealed."""

from html import escape

import numpy as np
import panel as pn

from dashboard import theme
from dashboard.live import Drawing
from dashboard.plots import group_spread
from model.group.agreement import Agreement
from model.group.agreement_words import all_points, points
from model.group.second_round import Movement
from model.language import _
from model.study import Study

FACTORS, TABLE = 8, {"most": 4, "named": 5}  # shown where all must fit a screen


class Results:
    """Choices, spread and sentences; the plot is drawn at the first reveal and then only moved."""

    def __init__(self, size: int, brief: bool) -> None:
        self._size, self._brief = size, brief  # of the words [px]; whether all must fit a screen
        self.drawing: Drawing | None = None
        self.choices = pn.pane.HTML("", css_classes=["choices"], **WORDS)
        self.spread = pn.Column(css_classes=["spread"], margin=0, sizing_mode="stretch_both")
        self.said = pn.pane.HTML("", css_classes=["said"], **WORDS)
        self.caption = pn.pane.HTML("", **WORDS)

    def show(self, study: Study, found: Agreement, moved: Movement | None) -> None:
        """Show an agreement, beside the vote before where there was one."""
        groups = [factor.group for factor in study.factors]
        labels = [_(theme.family_label(family)) for family in study.families]
        first = moved.first if moved else None
        most = FACTORS if self._brief else None
        drawn = group_spread.rows(found, groups, labels, first, most)
        columns = group_spread.layers(drawn)
        if self.drawing is None:
            plot = group_spread.plot(columns, self._size)
            self.drawing = Drawing("group", plot, columns, sizing_mode="stretch_both", margin=0)
            self.spread.objects = [self.caption, self.drawing.view]
        else:
            self.drawing.write(columns)
        self.caption.object = f"<h2>{escape(_('What each group weighs'))}</h2>{legend(moved)}"
        self.choices.object = choices(found, **TABLE if self._brief else {})
        words = points(found) if self._brief else all_points(found)
        self.said.object = sentences(words, moved)


def choices(found: Agreement, most: int = 99, named: int = 99) -> str:
    """How many groups choose each option, and which, at most so many of either as a table."""
    order = [one for one in np.argsort(-found.chosen, kind="stable") if found.chosen[one]]
    rows = "".join(_row(found, int(one), named) for one in order[:most])
    spare = len(order) - most
    if spare > 0:
        said = _("{count} more options, each chosen by fewer or as many.").format(count=spare)
        rows += f'<tr><td colspan="3">{escape(said)}</td></tr>'
    heads = (_("Tree"), _("Groups"), _("Who"))
    head = "".join(f'<th scope="col">{escape(one)}</th>' for one in heads)
    title = _("What each group's own weights choose")
    caption = f"<caption><h2>{escape(title)}</h2></caption>"
    return f"<table>{caption}<thead><tr>{head}</tr></thead><tbody>{rows}</tbody></table>"


def _row(found: Agreement, option: int, most: int) -> str:
    names = [voice.group for voice in found.voices if option in voice.winners]
    spare = len(names) - most
    if spare > 1:
        names = [*names[:most], _("and {count} more").format(count=spare)]
    marks = []
    if option in found.consensus.winners:
        marks.append(_("common choice"))
    if option == found.least_minded and len(found.voices) > 1:
        marks.append(_("minded least by the least pleased"))
    said = f"<small>{escape('; '.join(marks))}</small>" if marks else ""
    share = 100 * found.chosen[option] / len(found.voices)
    count = f'<span class="bar" style="width:{share:.0f}%"></span><b>{found.chosen[option]}</b>'
    tree = f'<th scope="row">{escape(found.options[option])}{said}</th>'
    return f"<tr>{tree}<td>{count}</td><td>{escape(', '.join(names))}</td></tr>"


def sentences(words: tuple[str, ...], moved: Movement | None) -> str:
    """All of it in words, first what moved."""
    parts = [(_("In words"), words)]
    if moved is not None:
        parts.insert(0, (_("What the second vote moved"), moved.sentences()))
    return "".join(
        f"<h2>{escape(title)}</h2><ul>{''.join(f'<li>{escape(one)}</li>' for one in said)}</ul>"
        for title, said in parts
    )


def legend(moved: Movement | None) -> str:
    """What the marks of the plot mean, in words."""
    before = _(" An open dot is a group's vote before.") if moved else ""
    said = _("A dot is a group; the upright bar and the figure are what they have in common.")
    return f"<p>{escape(said + before)}</p>"


WORDS = {"margin": 0, "sizing_mode": "stretch_width"}
LOOK = f"""
:host {{ font: 15px/1.4 {theme.FONT}; color: {theme.INK}; overflow-wrap: anywhere; }}
h1 {{ font-size: 22px; margin: 6px 0; }}
h2 {{ font-size: 1.1em; line-height: 1.25; margin: 8px 0 4px; text-align: left; }}
p {{ margin: 2px 0 4px; }}
table {{ border-collapse: collapse; width: 100%; }}
caption {{ text-align: left; }}
th, td {{ text-align: left; vertical-align: top; padding: 4px 8px 4px 0;
  border-bottom: 1px solid {theme.FAINT}; font-weight: 400; }}
thead th {{ color: {theme.QUIET}; font-size: 0.85em; }}
tbody th {{ font-weight: 600; width: 36%; }}
tbody td:nth-child(2) {{ width: 24%; white-space: nowrap; }}
.bar {{ display: inline-block; max-width: 75%; height: 0.85em; background: {theme.QUIET};
  margin-right: 8px; vertical-align: -1px; }}
small {{ display: block; font-weight: 400; color: {theme.QUIET}; font-size: 0.85em; }}
ul {{ margin: 4px 0; padding-left: 20px; }} li {{ margin: 4px 0; }}
"""
