"""order.csv: how many trees of what, each line a wish that one or more of the short list meet."""

from collections.abc import Iterable
from pathlib import Path

from model.planting.order import USES, Order, Wish, matching, use_of, wish_label
from model.study import Study
from model.survey.attribute import REQUIRED, Attribute, Wrong
from model.survey.faults import SurveyFaults, listed, nearest_name, shown
from model.survey.folder import Folder
from model.survey.table import Row, checked_rows

ORDER_FILE = "order.csv"
MOST = 200  # trees of one line; more is a plantation, whose pegs are rows
MOST_LINES = 500
MOST_TREES = 2_000  # of the whole order
ANY = "blank: any"
COLUMNS = (
    Attribute("count", "trees", REQUIRED, 1, MOST, (), "how many of it", whole=True),
    Attribute("species", "", "", meaning=f"as options.csv names it, such as apple; {ANY}"),
    Attribute("cultivar", "", "", meaning=f"as options.csv names it; {ANY}"),
    Attribute("rootstock", "", "", meaning=f"as options.csv names it; {ANY}"),
    Attribute("use", "", "", choices=tuple(USES), meaning=f"what the fruit is for; {ANY}"),
    Attribute("note", "", "", meaning="anything worth remembering"),
)
NAMES = ("species", "cultivar", "rootstock")


def read_order(study: Study, path: str | Path) -> Order:
    """The order of a file, or of the order.csv of a folder, over a study's short list.

    Raises SurveyFaults with every fault of the file.
    """
    path = Path(path)
    file = path / ORDER_FILE if path.is_dir() else path
    folder = Folder(file.parent)
    wishes = []
    if file.is_file():
        rows = checked_rows(folder, file.name, COLUMNS, MOST_LINES)
        wishes = [wish for row in rows if (wish := _wish(study, folder, file.name, row))]
        if not rows and not folder.faults:
            wrong = Wrong("no rows", "a row a wish, such as 2,apple,,,dessert,", "adding one")
            folder.fault(file.name, None, "", wrong)
        _note_too_many(folder, file.name, wishes)
    else:
        wrong = Wrong("no such file", "an order: count, species and so on", f"writing {file.name}")
        folder.fault(file.name, None, "", wrong)
    if folder.faults:
        raise SurveyFaults(folder.faults)
    return Order(tuple(wishes))


def _note_too_many(folder: Folder, name: str, wishes: list[Wish]) -> None:
    count = sum(wish.count for wish in wishes)
    if count > MOST_TREES:
        mend = "placing one part of the land after another"
        folder.fault(
            name, None, "count", Wrong(f"{count:,} trees", f"at most {MOST_TREES:,}", mend)
        )


def _wish(study: Study, folder: Folder, name: str, row: Row) -> Wish | None:
    """The wish of a row; None, and its faults noted, where nothing on the short list meets it."""
    asked = {column: row.text_of(column) for column in (*NAMES, "use")}
    faults = list(_unknown(study, asked))
    if not faults and not matching(study, **asked):
        faults = [_unmatched(study, asked)]
    for column, wrong in faults:
        folder.fault(name, row.number, column, wrong)
    if faults:
        return None
    return Wish(wish_label(**asked), int(row.number_of("count")), matching(study, **asked))


def _unknown(study: Study, asked: dict[str, str]) -> Iterable[tuple[str, Wrong]]:
    """Names that no tree of the short list has."""
    for column in NAMES:
        known = dict.fromkeys(getattr(option, column) for option in study.options)
        if asked[column] and asked[column] not in known:
            mend = f"{nearest_name(asked[column], known)}, or adding it to options.csv"
            yield column, Wrong(shown(asked[column]), listed(known), mend)


def _unmatched(study: Study, asked: dict[str, str]) -> tuple[str, Wrong]:
    """Names that are all known, but that no one tree of the short list has together."""
    named = matching(study, asked["species"], asked["cultivar"], asked["rootstock"])
    if named:
        uses = dict.fromkeys(use_of(study, option) or "a use not known" for option in named)
        found = f"{asked['use']} for {wish_label(asked['species'], asked['cultivar'])}"
        return "use", Wrong(found, listed(uses), "leaving the use blank, or adding another tree")
    found = " ".join(asked[column] for column in NAMES if asked[column])
    mend = "leaving one of them blank, or adding the tree to options.csv"
    return "cultivar", Wrong(shown(found), "a tree of the short list", mend)
