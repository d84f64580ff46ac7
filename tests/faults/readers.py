"""Every reader of the app: a file that it reads, its documented error, and where it reads it."""

from collections.abc import Callable, Iterable
from pathlib import Path
from urllib.parse import parse_qs

from dashboard.join.answers import NO_LAND
from dashboard.join.form import ballot_of
from dashboard.pages.plan_kept import read_kept
from dashboard.report.brief import read_brief
from model.group.ballot import BallotFaults
from model.opening import open_study
from model.planting.buying.prices import read_prices
from model.planting.order_file import read_order
from model.planting.year_after.observations import read_observations
from model.planting.year_after.standing import standing_trees
from model.sketched import judged_sketch
from model.study_file import read_study_file
from model.survey import SurveyFaults, read_site
from model.survey.background import background_from
from model.survey.sketch_file import sketch_from
from model.translations import language
from model.trees import CatalogueFaults, read_catalogue
from tests.faults import samples, uploads
from tests.faults.mutations import harmed_bytes, harmed_geopackage, harmed_text, harmed_zip
from tests.faults.trial import Reader

SITE = "site.toml"
CATALOGUE_FILES = ("species.csv", "rootstocks.csv", "cultivars.csv", "neighbours.csv")
SPOTS = ("A", "B")


def survey(file: str, sample: Callable[[], bytes], share: float = 1.0, site: str = "") -> Reader:
    """A file of a survey, read with no more beside it than the site's own."""
    beside = site.encode() or samples.SITE.encode()
    return Reader(
        name=file, file=file, sample=sample, read=_site, harmed=harmed_text,
        errors=(SurveyFaults,), places=(SITE,), beside=lambda: {SITE: beside}, share=share,
    )  # fmt: skip


def layers(file: str, share: float = 1.0) -> Reader:
    """A GeoPackage, or one of the files that make up a shapefile."""
    main = "features.gpkg" if file.endswith(".gpkg") else "features.shp"

    def beside() -> dict[str, bytes]:
        files = samples.layer_files()
        others = {name: data for name, data in files.items() if name.startswith("features.s")}
        others |= {name: files[name] for name in ("features.dbf", "features.prj")}
        kept = {} if main == "features.gpkg" else others
        return {SITE: samples.demo(SITE)} | kept

    return Reader(
        name=file, file=file, sample=lambda: samples.layer_files()[file], read=_site,
        harmed=harmed_geopackage if main == file and file.endswith(".gpkg") else harmed_bytes,
        errors=(SurveyFaults,), places=(SITE, main), beside=beside, share=share,
    )  # fmt: skip


def words(
    name: str,
    file: str,
    sample: str | Callable[[], bytes],
    read: Callable[[Path], Iterable[str] | None],
    errors: tuple[type[Exception], ...] = (SurveyFaults,),
    places: tuple[str, ...] = (),
    share: float = 1.0,
) -> Reader:
    """A text of another kind."""
    made = sample if callable(sample) else lambda: str(sample).encode()
    return Reader(name, file, made, read, harmed_text, errors, places, share=share)


def sent(
    name: str,
    file: str,
    sample: Callable[[], bytes],
    read: Callable[[Path], Iterable[str] | None],
    share: float = 1.0,
    places: tuple[str, ...] = (),
) -> Reader:
    """A file sent by a browser; what is wrong with it is said on the page."""
    harmed = harmed_zip if file.endswith(".zip") else harmed_text
    harmed = harmed_bytes if file.endswith((".png", ".jpg", ".tif")) else harmed
    return Reader(name, file, sample, read, harmed, (), places, share=share)


def _site(path: Path) -> None:
    read_site(path.parent)


def _study(path: Path) -> None:
    open_study(path.parent)


def _catalogue(path: Path) -> None:
    read_catalogue(path.parent)


def _ballot(path: Path) -> None:
    fields = parse_qs(uploads.words(path), max_num_fields=1000)
    ballot_of(NO_LAND, fields, fields.get("group", ["Team"])[0], 1)


def _sketch(path: Path) -> None:
    sketch = sketch_from(uploads.words(path), samples.demo_site())
    judged_sketch(sketch, samples.study().catalogue)


def _own_prices(path: Path) -> None:
    read_prices(path.parent, samples.study().catalogue)


def _plan(path: Path) -> None:
    (path.parent / "placement.csv").write_text(samples.PLACEMENT, encoding="utf-8")
    read_kept(samples.study(), path.parent)
    (path.parent / "placement.csv").unlink()


def _survey_readers() -> Iterable[Reader]:
    yield Reader(SITE, SITE, samples.SITE.encode, _site, harmed_text, (SurveyFaults,), share=4)
    demo = samples.demo(SITE).decode()
    yield survey("features.geojson", lambda: samples.demo("features.geojson"), 2, demo)
    yield survey("features.csv", samples.features_csv, 2, demo)
    yield layers("features.gpkg", 1.5)
    for ending in ("shp", "shx", "dbf", "prj"):
        yield layers(f"features.{ending}", 0.6)
    yield survey("heights.csv", lambda: samples.demo("heights.csv"), 1, demo)
    yield Reader(
        "heights.tif", "heights.tif", samples.heights_tif, _site, harmed_bytes, (SurveyFaults,),
        (SITE,), lambda: {SITE: samples.SITE.encode()}, 2,
    )  # fmt: skip
    yield survey("weather.epw", samples.epw, 0.25)
    yield survey("weather_daily.csv", samples.daily, 1)
    yield survey("weather_monthly.csv", lambda: samples.demo("weather_monthly.csv"), 2, demo)
    yield survey("spots.csv", lambda: samples.demo("spots.csv"), 1, demo)
    yield Reader(
        "options.csv", "options.csv", lambda: samples.demo("options.csv"), _study, harmed_text,
        (SurveyFaults,), (), lambda: {SITE: samples.demo(SITE)}, 0.3,
    )  # fmt: skip


def _catalogue_readers() -> Iterable[Reader]:
    shipped = Path(uploads.__file__).parents[2] / "model" / "trees" / "data"
    for file in (*CATALOGUE_FILES, "sources.csv"):
        own = samples.CULTIVARS if file == "cultivars.csv" else ""
        lines = (shipped / file).read_text(encoding="utf-8").splitlines(keepends=True)[:60]
        yield words(
            file, file, own or "".join(lines), _catalogue, (CatalogueFaults,), CATALOGUE_FILES, 0.2
        )


def _planting_readers() -> Iterable[Reader]:
    study = samples.study
    yield words("study.toml", "study.toml", lambda: samples.demo("study.toml"), read_study, share=3)
    yield words("order.csv", "order.csv", samples.ORDER, lambda p: _none(read_order(study(), p)))
    yield words(
        "placement.csv", "placement.csv", samples.PLACEMENT,
        lambda p: _none(standing_trees(study(), p)),
    )  # fmt: skip
    yield words("prices.csv", "prices.csv", samples.PRICES, _own_prices)
    yield words(
        "observations.csv", "observations.csv", samples.OBSERVATIONS,
        lambda p: _none(read_observations(p, SPOTS)), share=2,
    )  # fmt: skip
    yield words("plan.json", "plan.json", samples.PLAN, _plan, ())
    yield words(
        "report.toml", "report.toml", samples.REPORT, lambda p: _none(read_brief(p.parent)), ()
    )


def _other_readers() -> Iterable[Reader]:
    yield words("language (.po)", "de.po", samples.LANGUAGE, lambda p: _none(language(p)))
    yield words("link", "link", samples.LINK, uploads.link, (), ("The link's ",), 3)
    parts = ("field", "name", "weight", "trade-off", "round", "option", "factor", "time")
    yield words("ballot form", "form", samples.BALLOT, _ballot, (BallotFaults,), parts)
    yield words(
        "background.toml", "background.toml", samples.background,
        lambda p: _none(background_from(uploads.words(p))), (ValueError,),
    )  # fmt: skip
    yield words("sketch.json", "sketch.json", samples.sketch, _sketch, (ValueError,))


def _sent_readers() -> Iterable[Reader]:
    yield sent("picture (.png)", "sketch.png", lambda: samples.picture("PNG"), uploads.picture)
    yield sent("picture (.jpg)", "sketch.jpg", lambda: samples.picture("JPEG"), uploads.picture)
    yield words(
        "upload as sent", "sent", uploads.as_sent, uploads.envelope, (), ("file", "sketch"), 0.5
    )
    yield sent("zip of a folder", "survey.zip", samples.survey_zip, uploads.whole_folder, 0.3,
               (*samples.IN_ZIP,))  # fmt: skip
    for name in ("spots.csv", "features.geojson", SITE):
        yield sent(f"one file ({name})", name, lambda name=name: samples.demo(name),
                   uploads.single(name), 0.1, samples.IN_ZIP)  # fmt: skip
    yield sent(
        "observations sent", "observations.csv", lambda: samples.demo("observations.csv"),
        uploads.observations,
    )  # fmt: skip
    yield words(
        "corners typed", "corners", samples.CORNERS, uploads.typed_corners, (ValueError,),
        ("line ", "places"),
    )  # fmt: skip
    yield words("tapes pasted", "offsets", samples.TAPES, uploads.typed_tapes, ())
    yield words(
        "months pasted", "months", samples.months, uploads.typed_months, (SurveyFaults,),
        ("weather_monthly.csv",),
    )  # fmt: skip
    yield words("points tapped", "points", samples.POINTS, uploads.tapped_points, ())


def read_study(path: Path) -> None:
    """A study file read, as the app opens one."""
    read_study_file(path)


def _none(_read: object) -> None:
    """Nothing was said of what could be read."""


def readers() -> tuple[Reader, ...]:
    """All of them, in the order of the table."""
    return (
        *_survey_readers(),
        *_catalogue_readers(),
        *_planting_readers(),
        *_other_readers(),
        *_sent_readers(),
    )
