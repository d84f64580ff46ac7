"""The Survey page without a browser: what is drawn is kept, judged, said, loaded and saved."""

import io
import json
from base64 import b64encode
from dataclasses import replace

import pytest
from PIL import Image, ImageFile

from dashboard.keeping.opened import Opened
from dashboard.pages.survey import Survey
from dashboard.pages.survey_form import uploaded, words_of
from dashboard.pages.survey_picture import MOST_PIXELS, plain_picture
from dashboard.pages.survey_plan import places
from dashboard.plots.survey_plan import ORDER, drawn_marks
from dashboard.session import Session
from model.survey import read_site, same_site
from model.survey.archive import folder_zip
from model.survey.editing import MARKS
from model.survey.kinds import KINDS
from tests.model.demo import DEMO

MONTHS = "\n".join(f"{month},1.5,9,3,3.5,80,14" for month in range(1, 13))


@pytest.fixture(scope="module")
def kept_open(tmp_path_factory):
    folder = tmp_path_factory.mktemp("site")
    for file in DEMO.iterdir():
        (folder / file.name).write_bytes(file.read_bytes())
    return Opened(folder)


@pytest.fixture
def session(kept_open, tmp_path, monkeypatch):
    monkeypatch.setenv("TREESTEAD_DATA", str(tmp_path))
    return Session.begun(kept_open)


@pytest.fixture
def survey(session):
    session.page = "survey"
    return Survey(session)


def draw(survey, kind, *points, **fields):
    survey._acted("tool", {"tool": kind, "points": ()})
    survey._acted("place", {"tool": kind, "points": points})
    for name, value in fields.items():
        survey._told(name, value)
    return survey.work.mark


def field(survey, name):
    return next(one for one in survey.form.fields if one.get("name") == name)


def sent(name, data):
    return {"name": name, "size": len(data), "data": b64encode(data).decode()}


def on_disk(survey):
    return read_site(survey.session.copy.folder)


def test_every_kind_can_be_drawn_and_its_form_has_every_attribute(survey):
    assert set(ORDER) == set(MARKS)
    for kind in KINDS.values():
        points = ((0.0, 0.0), (5.0, 0.0), (5.0, 5.0))[: 1 if kind.geometry[0] == "Point" else 3]
        draw(survey, kind.name, *points)
        shown = {one.get("name"): one for one in survey.form.fields}
        for attribute in kind.attributes:
            assert shown[attribute.name]["label"] == words_of(attribute)
            assert attribute.meaning in shown[attribute.name]["help"]
        survey._told("act", "remove")
    assert same_site(on_disk(survey), survey.session.study.site)


def test_a_tree_is_kept_once_it_is_whole_and_until_then_as_a_sketch(survey):
    draw(survey, "neighbour_tree", (40.0, 30.0))
    assert field(survey, "species")["fault"] == "still needed"
    assert (survey.session.copy.folder / "sketch.json").is_file()
    before = len(survey.session.study.site.features)
    assert len(on_disk(survey).features) == before
    for name, value in {"species": "oak", "height_m": "16", "crown_m": "12"}.items():
        survey._told(name, value)
    assert not survey.work.faults
    assert len(on_disk(survey).features) == before + 1
    assert not (survey.session.copy.folder / "sketch.json").exists()


def test_an_unfinished_sketch_is_found_again_by_a_reload(survey, kept_open):
    draw(survey, "neighbour_tree", (40.0, 30.0), name="half known")
    again = Survey(Session.begun(kept_open, survey.session.copy.visitor))
    assert again.work.sketch.marks[-1].name == "half known"
    assert again.work.faults


def test_judging_shows_the_tree_to_every_page_and_keeps_the_steps(survey):
    session, before = survey.session, survey.session.study
    tree = draw(survey, "neighbour_tree", (40.0, 30.0), species="oak", height_m="16", crown_m="12")
    survey._headed("act", "judge")
    assert session.study is not before
    assert session.study.site.features[-1].geometry.coords[0] == pytest.approx(
        tree.points[0], abs=1e-3
    )
    rebuilt = Survey(session)
    assert rebuilt.work.history.past
    assert not rebuilt.work.is_stale


def test_faults_keep_the_old_study_and_are_said(survey):
    before = survey.session.study
    draw(survey, "neighbour_tree", (40.0, 30.0))
    survey.work.judge()
    assert survey.session.study is before
    assert "Not judged yet: 3 to mend" in survey.session.said
    survey._headed("act", "mend")
    faults = next(one for one in survey.form.fields if one.get("name") == "fault")
    survey._told("fault", faults["items"][0]["id"])
    assert survey.work.mark.kind == "neighbour_tree"
    assert survey.work.panel == "feature"


def test_leaving_the_page_judges_what_was_drawn(survey):
    before = survey.session.study
    draw(survey, "tap", (40.0, 30.0))
    survey.session.page = "weigh"
    assert survey.session.study is not before


def test_undo_and_redo_reach_the_files(survey):
    start = on_disk_or_original(survey)
    mark = survey.work.sketch.of_kind("spot")[0]
    x, y = mark.points[0]
    survey._acted("reshape", {"id": mark.id, "points": ((x + 0.5, y),)})
    assert on_disk(survey).spots[0].x == pytest.approx(x + 0.5)
    survey._acted("undo", {"points": ()})
    assert same_site(on_disk(survey), start)
    survey._acted("redo", {"points": ()})
    assert on_disk(survey).spots[0].x == pytest.approx(x + 0.5)


def on_disk_or_original(survey):
    return read_site(survey.session.folder)


def test_everything_drawn_can_be_typed(survey):
    draw(survey, "building", (0.0, 0.0), (5.0, 0.0), (5.0, 5.0), height_m="4")
    survey._told("corners", "1, 1\n6 1\n6;6\n1,6")
    assert survey.work.mark.points == ((1.0, 1.0), (6.0, 1.0), (6.0, 6.0), (1.0, 6.0))
    survey._told("corners", "1, 1\nnorth")
    assert "line 2: found north" in field(survey, "corners")["fault"]
    assert len(survey.work.mark.points) == 4


def test_taped_offsets_become_pegs_and_a_feature(survey):
    survey._headed("panel", "tapes")
    survey._told("text", "P, Hollow, 12, Screen, 12, left\nQ, Hollow, 1, Screen, 1, left")
    said = " ".join(str(one.get("label")) for one in survey.form.fields)
    assert "row 2: found tapes of 1 m and 1 m do not meet" in said
    survey._told("act", "pegs")
    assert on_disk(survey).spots[-1].name == "P"
    survey._headed("panel", "tapes")
    survey._told("method", "base line")
    lines = ["a, origin, P, 1, 1, left", "b, origin, P, 4, 1, left", "c, origin, P, 4, 3, left"]
    survey._told("text", "\n".join(lines))
    survey._told("kind", "keep_clear")
    survey._told("act", "corners")
    assert (survey.work.mark.kind, len(survey.work.mark.points)) == ("keep_clear", 3)


def test_a_new_site_is_begun_in_four_steps(survey):
    survey._headed("panel", "new")
    survey._told("act", "begin")
    assert field(survey, "latitude")["fault"]
    begun(survey)
    assert survey.plan.tool == "boundary"
    survey._told("wide", "30")
    survey._told("deep", "20")
    survey._told("act", "rectangle")
    assert survey.plan.tool == ""
    survey._told("act", "next")
    assert survey.plan.tool == "hub"
    survey._told("hub", "5, 5")
    assert survey.plan.tool == ""
    survey._told("slope-slope_percent", "4")
    survey._told("slope-aspect_deg", "180")
    survey._told("act", "next")
    survey._told("months", MONTHS)
    survey._told("act", "judge")
    study = survey.session.study
    assert study.site.name == "Long Meadow"
    assert study.site.boundary.area == pytest.approx(600, abs=0.01)
    assert study.site.weather.table.loc[7, "rain"] == 80
    assert survey.work.panel == "feature", "what stands on the land comes next"
    assert (survey.session.copy.original / "spots.csv").is_file()
    survey._acted("undo", {"points": ()})
    assert study.site.name == "Long Meadow"


def test_the_site_s_figures_are_taken_when_right_and_said_when_wrong(survey):
    survey._headed("panel", "site")
    survey._told("site-latitude", "99")
    assert "expected a number from -75 to 75" in field(survey, "site-latitude")["fault"]
    survey._told("site-latitude", "51.5")
    survey._told("soil-ph", "7")
    assert (on_disk(survey).latitude, on_disk(survey).soil.ph) == (51.5, 7.0)
    survey._told("month", [6, 5, "77"])
    assert on_disk(survey).weather.table.loc[7, "rain"] == 77


def test_a_folder_goes_out_as_a_zip_and_comes_back_with_undo(survey):
    start = read_site(survey.session.folder)
    data = folder_zip(survey.session.folder)
    survey._headed("panel", "files")
    handed = []
    survey.form.download = lambda *file: handed.append(file)
    survey._told("zip", "zip")
    assert handed == [("survey.zip", data)]
    draw(survey, "tap", (40.0, 30.0))
    survey._headed("panel", "files")
    survey._told("folder", sent("survey.zip", data))
    assert same_site(on_disk(survey), start)
    survey._acted("undo", {"points": ()})
    assert len(on_disk(survey).features) == len(start.features) + 1


def test_single_files_are_taken_when_right_and_their_faults_said(survey):
    survey._headed("panel", "files")
    survey._told("single", sent("spots.csv", b"spot,x_m,y_m\nOnly,50,50\n"))
    assert [spot.name for spot in on_disk(survey).spots] == ["Only"]
    survey._told("single", sent("spots.csv", b"spot,x_m,y_m\nOnly,50,north\n"))
    assert any("spots.csv, row 2, y_m" in fault for fault in survey.panels["files"].faults)
    survey._told("single", sent("../spots.csv", b"x"))
    assert survey.panels["files"].faults
    survey._told("folder", sent("survey.zip", b"no zip"))
    assert "no whole zip" in survey.panels["files"].faults[0]
    assert [spot.name for spot in on_disk(survey).spots] == ["Only"]


def test_uploads_are_limited_whatever_the_browser_says():
    with pytest.raises(ValueError, match=r"expected at most 0\.001 MB"):
        uploaded({"name": "a", "size": 1, "data": b64encode(b"0" * 2000).decode()}, 1000)
    with pytest.raises(ValueError, match="at most"):
        uploaded({"name": "a", "size": 5000}, 1000)
    for odd in (None, {}, {"name": "a", "size": 3, "data": "%%%"}):
        with pytest.raises(ValueError, match="no file"):
            uploaded(odd, 1000)


def begun(survey):
    survey._headed("panel", "new")
    place = {"latitude": "48", "longitude": "-6", "altitude_m": "20"}
    for name, value in {"name": "Long Meadow", **place}.items():
        survey._told(name, value)
    survey._told("act", "begin")


def picture(kind, size=(300, 200)):
    out = io.BytesIO()
    Image.new("RGB", size, "#88aa66").save(out, kind)
    return out.getvalue()


def test_a_picture_is_fitted_by_two_known_points_and_kept(survey, kept_open):
    survey._headed("panel", "picture")
    survey._told("file", sent("field.png", picture("PNG")))
    panel = survey.panels["picture"]
    for number, (pixel, stands) in enumerate((((30.0, 150.0), "0, 0"), ((230.0, 150.0), "40, 0"))):
        survey._told("act", f"pick-{number}")
        assert survey.plan.tool == "pick"
        survey._acted("place", {"tool": "pick", "points": (panel.lie.ground(pixel),)})
        survey._told(f"stands-{number}", stands)
    survey._told("act", "fit")
    assert panel.lie.metres_a_pixel == pytest.approx(0.2)
    assert panel.lie.ground((30.0, 50.0)) == pytest.approx((0.0, 20.0))
    again = Survey(Session.begun(kept_open, survey.session.copy.visitor))
    assert again.panels["picture"].lie == panel.lie
    assert again.plan.url.startswith("data:image/png")
    begun(again)
    assert not again.plan.url


@pytest.mark.parametrize("lenient", [False, True], ids=["strict", "after the PDF printer's import"])
def test_only_a_png_or_jpeg_of_reasonable_size_is_a_picture(monkeypatch, lenient):
    monkeypatch.setattr(ImageFile, "LOAD_TRUNCATED_IMAGES", lenient)
    for data in (b"", b"<svg/>", picture("GIF"), picture("PNG")[:60]):
        with pytest.raises(ValueError, match="no whole PNG"):
            plain_picture(data)
    monkeypatch.setattr("dashboard.pages.survey_picture.MOST_PIXELS", 1000)
    with pytest.raises(ValueError, match="million pixels"):
        plain_picture(picture("JPEG"))
    assert MOST_PIXELS > 10**7


def test_what_a_camera_wrote_beside_the_picture_is_left_out(monkeypatch):
    out, exif = io.BytesIO(), Image.Exif()
    exif[0x010E] = "where it was taken"
    exif[0x0112] = 6  # turned by a quarter
    Image.new("RGB", (60, 40)).save(out, "JPEG", exif=exif)
    name, data, size = plain_picture(out.getvalue())
    assert (name, size) == ("background.jpg", (40, 60))
    assert b"where it was taken" not in data


def test_options_chosen_elsewhere_outlive_a_step_here(survey):
    survey.session.keep("options.csv", "species,cultivar,rootstock\napple,Discovery,M9\n")
    draw(survey, "tap", (40.0, 30.0))
    assert on_disk(survey).options == (("apple", "Discovery", "M9"),)


def test_a_survey_changed_elsewhere_begins_a_new_sketch(survey):
    draw(survey, "tap", (40.0, 30.0))
    survey.work.judge()
    survey.session.keep("spots.csv", "spot,x_m,y_m\nOnly,50,50\n")
    survey.session.reopen()
    assert len(Survey(survey.session).work.sketch.of_kind("spot")) == 1


@pytest.mark.parametrize(
    "raw",
    [None, "x", [[1]], [[1, "2"]], [[1, float("nan")]], [[1, True]], [[1e9, 1]], [[0, 0]] * 9000],
)
def test_places_that_are_none_are_not_taken(raw):
    assert places(raw) == ()


def test_messages_that_make_no_sense_change_nothing(survey):
    before = survey.work.sketch
    for act in ("place", "reshape", "remove", "tool", "choose", "pick", "undo", "nonsense"):
        for data in ({}, {"id": 10**9}, {"tool": "dragon"}, {"id": "x", "tool": 5}):
            survey.plan._handle_msg({"act": act, "points": [[1, 2]], **data})
    for panel in survey.panels:
        survey._headed("panel", panel)
        for name in ("", "act", "name", "month", "corners", "site-", "site-nothing", "pick-9"):
            survey._told(name, "nonsense")
    assert survey.work.sketch == before


def test_words_of_the_survey_are_only_ever_data(survey):
    survey.work.step(
        replace(survey.work.sketch).added("tap", ((1.0, 1.0),), "<img onerror=alert(1)>")
    )
    marks = drawn_marks(survey.work.sketch.marks)
    assert json.dumps(marks)
    code = survey.plan._esm + survey.form._esm.read_text(encoding="utf-8")
    assert "innerHTML" not in code
    assert "insertAdjacentHTML" not in code
