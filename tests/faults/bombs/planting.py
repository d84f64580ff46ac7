"""Bombs among the files of a study: what is chosen, ordered, planned, said and linked to."""

from collections.abc import Iterator
from pathlib import Path
from urllib.parse import quote

from dashboard.pages.plan_kept import read_kept
from dashboard.report.brief import read_brief
from model.opening import folder_faults
from model.planting.buying.prices import read_prices
from model.planting.order_file import read_order
from model.planting.year_after.standing import standing_trees
from model.study_file import read_study_file
from model.survey.background import background_from
from model.survey.sketch_file import sketch_from
from model.translations import language
from tests.faults import samples, uploads

from .bomb import Bomb


def study_bombs() -> Iterator[Bomb]:
    """All of them."""
    yield from _planting_bombs()
    yield from _other_bombs()


def _planting_bombs() -> Iterator[Bomb]:
    options = "species,cultivar,rootstock\n" + "".join(
        f"apple,Discoverie {n},M{n}\n" for n in range(5_000)
    )
    yield Bomb("5,000 unknown trees", "options.csv", options.encode, _folder)
    many = "count,species,cultivar,rootstock,use,note\n" + "200,,,,,\n" * 90_000
    yield Bomb("18 million trees", "order.csv", many.encode, _order)
    lines = "count,species,cultivar,rootstock,use,note\n" + "200,,,,,\n" * 400
    yield Bomb("80,000 trees", "order.csv", lines.encode, _order)
    head = "spot,x_m,y_m,species,cultivar,rootstock,wish,score,planted\n"
    trees = head + "here,20,20,pear,Conference,Quince A,,,\n" * 4_900
    yield Bomb("4,900 trees on one place", "placement.csv", trees.encode,
               _trees)  # fmt: skip
    prices = "item,price,currency,note\n" + "".join(
        f"tree:Discoverie of the {n}th,1,EUR,\n" for n in range(50_000)
    )
    yield Bomb(
        "50,000 unknown trees", "prices.csv", prices.encode,
        _prices,
    )  # fmt: skip
    keys = "[weights]\n" + "".join(f"sunlicht{n} = 1\n" for n in range(20_000))
    yield Bomb("20,000 unknown factors", "study.toml", keys.encode, _study_file)
    sets = "[[weight_sets]]\nname = 'a'\n" * 15_000
    yield Bomb("15,000 weight sets", "study.toml", sets.encode, _study_file)
    yield Bomb("nested lists", "plan.json", lambda: b"[" * 1_900_000, _plan, refused=False)
    yield Bomb(
        "nested lists", "report.toml", lambda: b"a = " + b"[" * 90_000, _brief, refused=False
    )


def _order(path: Path) -> None:
    read_order(samples.study(), path)


def _trees(path: Path) -> None:
    standing_trees(samples.study(), path)


def _prices(path: Path) -> None:
    read_prices(path.parent, samples.study().catalogue)


def _study_file(path: Path) -> None:
    read_study_file(path)


def _plan(path: Path) -> None:
    (path.parent / "placement.csv").write_text(samples.PLACEMENT, encoding="utf-8")
    read_kept(samples.study(), path.parent)


def _brief(path: Path) -> None:
    read_brief(path.parent)


def _folder(path: Path) -> list[str]:
    (path.parent / "site.toml").write_bytes(samples.demo("site.toml"))
    return folder_faults(path.parent)


def _other_bombs() -> Iterator[Bomb]:
    yield Bomb("nested lists", "sketch.json", lambda: b'{"marks":' + b"[" * 5_000_000, _sketch)
    yield Bomb("nested lists", "background.toml", lambda: b"a = " + b"[" * 9_000, _background)
    po = b'msgid ""\nmsgstr ""\n"Plural-Forms: nplurals=999999999; plural=0;\\n"\n'
    yield Bomb("a thousand million plurals", "de.po", lambda: po, _language)
    link = "curve.spacing=" + quote("~".join(f"{n}:0.5" for n in range(100_000)))
    yield Bomb("a curve of 100,000 knots", "link", link.encode, uploads.link)
    weights = "weights=" + "~".join(f"s{n}:1" for n in range(100_000))
    yield Bomb("100,000 weights", "link", weights.encode, uploads.link)


def _sketch(path: Path) -> None:
    sketch_from(uploads.words(path), samples.demo_site())


def _background(path: Path) -> None:
    background_from(uploads.words(path))


def _language(path: Path) -> None:
    language(path)
