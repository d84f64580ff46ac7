"""Two apps, or two visitors, on one folder: neither spoils what the other does, nor unsaid."""

import threading
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from datetime import date, timedelta

import numpy as np
import pytest

from dashboard.keeping import opened as opening
from dashboard.keeping.drafts import written
from dashboard.keeping.holding import held
from dashboard.keeping.opened import Opened, survey_digest
from dashboard.keeping.saving import ChangedMeanwhile
from dashboard.keeping.working_copy import WorkingCopy, new_visitor
from model.ground.store import Store
from model.opening import folder_faults
from model.survey.starter import new_folder

TIMES = 5


@pytest.fixture
def field(tmp_path, monkeypatch):
    monkeypatch.setenv("TREESTEAD_DATA", str(tmp_path / "data"))
    folder = tmp_path / "field"
    folder.mkdir()
    (folder / "order.csv").write_text("count\n1\n", encoding="utf-8")
    (folder / "prices.csv").write_text("item\n", encoding="utf-8")
    return folder


def text(path):
    return path.read_text(encoding="utf-8")


def begun(folder, **files):
    """A visitor's copy with files of theirs."""
    copy = WorkingCopy(folder, new_visitor())
    for name, content in files.items():
        copy.write(f"{name}.csv", content)
    return copy


def test_a_file_that_another_changed_too_is_not_overwritten_unsaid(field):
    mine, theirs = begun(field, order="mine"), begun(field, order="theirs")
    theirs.save()
    with pytest.raises(ChangedMeanwhile, match=r"another has changed order\.csv .*Saving again"):
        mine.save()
    assert text(field / "order.csv") == "theirs"
    assert text(mine.own / "order.csv") == "mine"


def test_saving_again_takes_the_own_file_and_puts_the_other_aside(field):
    mine, theirs = begun(field, order="mine"), begun(field, order="theirs")
    theirs.save()
    with pytest.raises(ChangedMeanwhile):
        mine.save()
    again = WorkingCopy(field, mine.visitor)  # the app was started anew meanwhile
    assert [path.name for path in again.save().files] == ["order.csv"]
    assert text(field / "order.csv") == "mine"
    assert text(field / "replaced" / "order.csv") == "theirs"


def test_what_another_changes_after_one_was_told_is_told_again(field):
    mine = begun(field, order="mine")
    for once_more in ("theirs", "theirs again"):
        (field / "order.csv").write_text(once_more, encoding="utf-8")
        with pytest.raises(ChangedMeanwhile):
            mine.save()
    assert text(field / "order.csv") == "theirs again"


def test_a_file_removed_here_and_changed_there_is_not_removed_unsaid(field):
    mine = begun(field, prices="mine")
    mine.remove("order.csv")
    (field / "order.csv").write_text("theirs", encoding="utf-8")
    with pytest.raises(ChangedMeanwhile, match=r"order\.csv"):
        mine.save()
    assert text(field / "order.csv") == "theirs"
    mine.save()
    assert not (field / "order.csv").exists()
    assert text(field / "replaced" / "order.csv") == "theirs"


@pytest.fixture
def land(tmp_path, monkeypatch):
    monkeypatch.setenv("TREESTEAD_DATA", str(tmp_path / "data"))
    new_folder(tmp_path / "land")
    return tmp_path / "land"


def test_each_keeps_what_only_the_other_changed_added_or_removed(land):
    mine, theirs = begun(land, prices="item,price,currency,note\n"), begun(land)
    theirs.write("notes.txt", "theirs")
    theirs.write("spots.csv", "spot,x_m,y_m\nTheirs,20,20\n")
    theirs.remove("README.txt")
    theirs.save()
    saved = mine.save()
    assert [path.name for path in saved.files] == ["prices.csv"]
    assert saved.left == ["README.txt", "notes.txt", "spots.csv"]
    assert "Theirs" in text(land / "spots.csv")
    assert text(land / "notes.txt") == "theirs"
    assert not (land / "README.txt").exists()


def test_two_changes_that_make_a_fault_together_are_not_put_together(land):
    mine, theirs = begun(land), begun(land)
    mine.write("weather_monthly.csv", text(land / "weather_monthly.example.csv"))
    days = [date(2023, 1, 1) + timedelta(number) for number in range(365)]
    daily = "".join(f"{day},3,12,2\n" for day in days)
    theirs.write("weather_daily.csv", f"date,tmin,tmax,rain\n{daily}")
    theirs.save()
    assert folder_faults(land) == folder_faults(mine.own) == []
    before = {path.name: path.read_bytes() for path in land.iterdir() if path.is_file()}
    with pytest.raises(ChangedMeanwhile, match=r"there would be a fault: weather_daily\.csv"):
        mine.save()
    assert {path.name: path.read_bytes() for path in land.iterdir() if path.is_file()} == before
    mine.save()
    assert folder_faults(land) == []
    assert "2023-01-01" in text(land / "replaced" / "weather_daily.csv")


def at_once(number, act):
    """What came of an act done in so many threads at the same moment."""
    together = threading.Barrier(number)

    def one(which):
        together.wait(60)
        return act(which)

    with ThreadPoolExecutor(number) as pool:
        return list(pool.map(one, range(number)))


def test_of_all_who_save_one_file_at_once_one_succeeds_and_the_others_are_told(field):
    def saved(which):
        try:
            copies[which].save()
        except ChangedMeanwhile:
            return False
        return True

    for time in range(TIMES):  # in other words each time: who changes nothing is refused nothing
        copies = [begun(field, order=f"{which}, time {time}") for which in range(6)]
        came = at_once(6, saved)
        assert sum(came) == 1
        assert text(field / "order.csv") == f"{came.index(True)}, time {time}"


def test_windows_of_one_visitor_that_begin_at_once_share_one_copy(field):
    for _time in range(TIMES):
        visitor = new_visitor()
        at_once(6, lambda which: WorkingCopy(field, visitor).write(f"{which}.csv", str(which)))  # noqa: B023 - done at once
        copy = WorkingCopy(field, visitor)
        assert [text(copy.own / f"{which}.csv") for which in range(6)] == list("012345")
        assert [path.name for path in copy.own.parent.iterdir()] == [copy.own.name]


def test_a_folder_that_is_held_for_long_is_said(field, monkeypatch):
    monkeypatch.setattr("dashboard.keeping.holding.PATIENCE", 0.1)
    mine = begun(field, order="mine")
    with held(field, alone=True), pytest.raises(OSError, match="another app is writing"):
        mine.save()
    assert text(mine.own / "order.csv") == "mine"
    mine.save()
    assert text(field / "order.csv") == "mine"


def test_a_folder_that_changes_while_it_is_read_gives_no_study_of_both(land, monkeypatch):
    site = text(land / "site.toml")
    read, saved = opening.open_study, []

    def slow(folder, **given):
        study = read(folder, **given)
        if not saved:  # another app saves once this one has read
            saved.append(written(land / "site.toml", site.replace('name = "', 'name = "Other ')))
        return study

    monkeypatch.setattr(opening, "open_study", slow)
    kept_open = Opened(land)
    study = kept_open.study()
    assert study.site.name.startswith("Other ")
    assert study.ground.site.name == study.site.name
    assert list(kept_open._grounds) == [survey_digest(land)]


@dataclass(frozen=True)
class Figures:
    """What was computed."""

    figures: np.ndarray


def test_apps_that_share_a_store_read_only_what_belongs_to_their_own_land(tmp_path, monkeypatch):
    monkeypatch.setattr("model.ground.store.MOST", 60_000)  # so that files go while others read

    def use(which):
        store = Store(tmp_path)
        for number in range(15):
            land = (number + which) % 10
            found = store.kept(Figures, land, lambda: Figures(np.full(1000, land)))  # noqa: B023 - done at once
            if not (found.figures == land).all():
                return False
        return True

    assert all(at_once(4, use))
    assert not list(tmp_path.glob("*.part"))
