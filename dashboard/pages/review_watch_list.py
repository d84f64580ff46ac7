"""What to watch in the first year, and a page of it to print and take out."""

from collections.abc import Sequence
from html import escape

from model.language import _, language_code, marked
from model.planting.year_after.standing import StandingTree
from model.study import Study

# What, when in the north and in the south; how and with what. Common practice, no source.
BLOSSOM, VISITS = "the weeks of blossom", "all the year, each visit"
FALL, MOIST = "after leaf fall", "any day that the soil is moist"
WATCH = (
    ("Sun", "June and September", "December and March"),
    ("Frost in blossom", BLOSSOM, BLOSSOM),
    ("Standing water", "October to March, once a week", "April to September, once a week"),
    ("Browsing", VISITS, VISITS),
    ("Drought", "June to August", "December to February"),
    ("Growth of the leader", FALL, FALL),
    ("pH and depth of soil", MOIST, MOIST),
)
HOW = {
    "Sun": marked(
        "On a clear day note every hour whether the tree stands in sun, and count the hours; "
        "three days or more. With: a watch. Never look at the sun itself."
    ),
    "Frost in blossom": marked(
        "The morning after a clear, still night look into ten flowers: a brown "
        "middle is dead. Write 1 where a tenth or more was taken, else 0. With: your eyes."
    ),
    "Standing water": marked(
        "Look into a narrow test hole a spade deep: does water stand in it? Write the days in the "
        "year. With: a spade; have services traced first, dig by hand, cover the hole."
    ),
    "Browsing": marked(
        "Bitten tips, rubbed bark, tracks: count the times, 0 for never. With: your eyes."
    ),
    "Drought": marked(
        "Days on which the leaves hung in the morning. With: your eyes, a finger in the soil."
    ),
    "Growth of the leader": marked(
        "From last winter's ring of scars to the tip. With: a tape, from the ground."
    ),
    "pH and depth of soil": marked(
        "One hole, dug by hand after services were traced: how deep to what "
        "roots cannot pass; a spoonful of soil for a kit. With: a spade, a tape, a kit."
    ),
}
COLUMNS = ("Watch", "When", "How and with what")


def watch_rows(latitude: float) -> list[list[str]]:
    """What, when and how, by hemisphere."""
    return [
        [_(what), _(north if latitude >= 0 else south), _(HOW[what])]
        for what, north, south in WATCH
    ]


def watch_list_page(study: Study, trees: Sequence[StandingTree]) -> str:
    """One self-contained page to print: the list, and a line to fill in for each tree."""
    rows = "".join(
        f"<tr><th scope=row>{escape(what)}</th><td>{escape(when)}</td><td>{escape(how)}</td></tr>"
        for what, when, how in watch_rows(study.ground.latitude)
    )
    labels = [(tree.spot, study.options[tree.option].label) for tree in trees]
    blank = "<td></td>" * len(WATCH)
    lines = "".join(
        f"<tr><th scope=row>{escape(spot)}<br><small>{escape(label)}</small></th>{blank}</tr>"
        for spot, label in labels
    )
    heads = "".join(f"<th scope=col>{escape(_(what))}</th>" for what, *_rest in WATCH)
    columns = "".join(f"<th scope=col>{escape(_(one))}</th>" for one in COLUMNS)
    title = escape(_("What to watch: {site}").format(site=study.site.name))
    return (
        f"<!doctype html><html lang={language_code()}><meta charset=utf-8><title>{title}</title>"
        f"<style>{PRINT}</style><h1>{title}</h1><table><thead><tr>{columns}</tr></thead>"
        f"<tbody>{rows}</tbody></table><h2>{escape(_('To fill in, with the day of each'))}</h2>"
        f"<table class=blank><thead><tr><th scope=col>{escape(_('Tree'))}</th>{heads}</tr></thead>"
        f"<tbody>{lines}</tbody></table></html>"
    )


PRINT = """
body { font: 12px/1.4 sans-serif; margin: 12mm; color: #000; }
table { border-collapse: collapse; width: 100%; }
th, td { border: 1px solid #999; padding: 4px 6px; text-align: left; vertical-align: top; }
.blank td { height: 14mm; }
@page { size: A4 landscape; margin: 10mm; }
"""
