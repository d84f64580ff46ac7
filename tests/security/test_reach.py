"""Where the app is reached: this machine by default, else the address that people type."""

import pytest

from dashboard.__main__ import USAGE, main
from dashboard.join.reach import Reach, public_address
from dashboard.keeping.working_copy import WorkingCopy
from dashboard.pages.group import Group
from dashboard.session import Session
from tests.dashboard.phones import voting
from tests.model.demo import DEMO, demo_study

PUBLIC = "https://trees.example.org"


def test_by_default_only_this_machine_s_pages_may_speak_to_the_app():
    reach = Reach(5010)
    assert reach.private
    assert reach.origins == ["localhost:5010", "127.0.0.1:5010"]
    assert reach.base == ""
    assert not reach.secure


def test_behind_a_proxy_the_public_page_may_and_phones_are_told_of_it():
    reach = Reach(5010, public=PUBLIC)
    assert reach.origins[0] == "trees.example.org"
    assert reach.base == PUBLIC
    assert reach.secure
    assert not reach.private


def test_on_the_network_phones_are_told_the_app_s_own_address():
    assert Reach(5010, "192.168.1.20").base == "http://192.168.1.20:5010"
    assert "192.168.1.20:5010" in Reach(5010, "192.168.1.20").origins
    assert "evil.invalid:5010" not in Reach(5010, "0.0.0.0").origins  # noqa: S104 - only asked


@pytest.mark.parametrize(
    ("typed", "origin"),
    [
        ("https://Trees.Example.org/", PUBLIC),
        ("https://trees.example.org:443", PUBLIC),
        ("http://trees.example.org:8080", "http://trees.example.org:8080"),
        (" http://10.0.0.3:80 ", "http://10.0.0.3"),
    ],
)
def test_the_public_address_is_kept_as_browsers_name_it(typed, origin):
    assert public_address(typed) == origin


@pytest.mark.parametrize(
    "typed",
    ["trees.example.org", "https://", "ftp://host", "https://a/b", "https://u@h", "https://a'b"],
)
def test_what_is_no_public_address_is_said_before_anything_is_computed(typed, capsys):
    assert main(["serve", str(DEMO), "--no-browser", "--public", typed]) == USAGE
    assert f"--public: found {typed!r}, expected the address" in capsys.readouterr().err


def test_behind_a_proxy_no_second_door_is_opened(tmp_path, monkeypatch):
    def opened(_votes):
        raise AssertionError("a door was opened")

    monkeypatch.setenv("TREESTEAD_DATA", str(tmp_path))
    monkeypatch.setattr("dashboard.pages.group.opened_door", opened)
    votes = voting(demo_study(), f"sqlite:///{tmp_path}/ballots.sqlite3")
    votes.reach = Reach(5010, public=PUBLIC)
    monkeypatch.setattr("dashboard.pages.group.Voting.of", lambda _opened: votes)
    page = Group(Session(demo_study(), votes.opened, WorkingCopy(DEMO)))
    assert "same network" not in page.head.object
    page.begin()
    assert f"{PUBLIC}/join?code={page.held.code}" in page.joining.object
