"""new, tag, crew and event: what is put down is kept, and what cannot be is refused in one line with nothing changed."""

import hashlib
from pathlib import Path

import pytest

from filmreview.review.reading import read, read_history
from tests.commandline.conftest import FILMS, Say

NEW = [
    "--film", FILMS / "variable.mp4", "--book", "nfhs", "--day", "2024-01-09", "--level", "varsity",
    "--home", "Thrunnockby=white", "--visitor", "Ovvermire=green",
]  # fmt: skip
TAG = ["--at", "0.5", "--team", "visitor", "--player", "14", "--item", "arm sleeve"]


def digest(path: Path) -> str:
    return hashlib.sha256(path.read_bytes()).hexdigest()


def changed(words: list[object], option: str, value: object) -> list[object]:
    place = words.index(option) + 1
    return [*words[:place], value, *words[place + 1 :]]


def test_a_new_review_holds_the_whole_set_up(say: Say, tmp_path: Path) -> None:
    path = tmp_path / "game.filmreview"
    more = [
        "--kit",
        "home.number_colour=navy",
        "--roster",
        "home=4,5,10",
        "--crew",
        "referee=Idrun Mosswell",
        "--observer",
        "Jorvia Reddlecombe",
    ]
    assert say("new", path, *NEW, *more).code == 0
    game = read(path).game
    assert (game.home.name, game.visitor.name, game.book, game.level, game.observer) == (
        "Thrunnockby", "Ovvermire", "nfhs", "varsity", "Jorvia Reddlecombe",
    )  # fmt: skip
    assert game.home.facts["number_colour"].value[0].name == "navy"
    assert game.home.roster == ("4", "5", "10")
    assert [(one.position, one.name) for one in game.crew] == [("referee", "Idrun Mosswell")]
    assert [film.name for film in read(path).films] == ["variable.mp4"]


def test_a_tag_with_its_crew_mark_and_an_event_are_kept(say: Say, review: Path) -> None:
    tag = say("tag", review, *TAG, "--box", "80,50,40,40", "--measure", "--fact", "solid=yes", "--note", "left arm")
    assert tag.code == 0, tag.told
    assert say("crew", review, tag.out.strip(), "--mark", "late", "--at", "1", "--did", "told the coach").code == 0
    assert say("event", review, "--at", "0.7", "--what", "directed to leave", "--team", "visitor", "--player", "14").code == 0
    kept = read(review)
    (placed,) = kept.tags
    assert (placed.team, placed.player, placed.item, str(placed.region), placed.note) == (
        "visitor", "14", "arm sleeve", "80,50,40,40", "left arm",
    )  # fmt: skip
    assert {fact.origin.value for fact in placed.facts} >= {"seen"}
    assert placed.crew is not None
    assert (placed.crew.mark, placed.crew.did) == ("late", "told the coach")
    assert [event.what for event in kept.events] == ["directed to leave"]
    assert len(read_history(review)) == 5  # set-up, films, tag, crew, event


@pytest.mark.parametrize(
    ("option", "value", "told"),
    [
        ("--team", "visitors", '--team: unknown team "visitors"; write "visitor" if that is what you mean'),
        ("--player", "140", '--player: "140" is not a player number; write one or two digits'),
        ("--item", "arm sleve", '--item: unknown item "arm sleve"; write "arm sleeve" if that is what you mean'),
        ("--at", "10:00", "10:00.000 is past the end of the film"),
    ],
)
def test_a_tag_that_cannot_be_changes_nothing(say: Say, review: Path, option: str, value: str, told: str) -> None:
    before = digest(review)
    answer = say("tag", review, *changed(TAG, option, value))
    assert answer.code == 2
    assert told in answer.line
    assert digest(review) == before


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["--box", "300,100,100,100"], "the region 300,100,100,100 reaches outside the picture of 320x180 pixels"),
        (["--fact", "colour=ornge"], 'unknown colour "ornge"'),
        (["--fact", "color=orange"], '--fact: unknown fact "color"; write "colour" if that is what you mean'),
        (["--fact", "colour"], '--fact: "colour" is not KEY=VALUE'),
        (["--measure"], "--measure: there is no region to measure; give --box"),
        (["--film", "f7"], 'unknown film "f7"'),
    ],
)
def test_more_of_a_tag_that_cannot_be(say: Say, review: Path, words: list[str], told: str) -> None:
    before = digest(review)
    answer = say("tag", review, *TAG, *words)
    assert answer.code == 2
    assert told in answer.line
    assert digest(review) == before


@pytest.mark.parametrize(
    ("option", "value", "told"),
    [
        ("--book", "nhfs", '--book: unknown book "nhfs"; write "nfhs" if that is what you mean'),
        ("--day", "09.01.2024", '--day: "09.01.2024" is not a day; write YYYY-MM-DD'),
        ("--level", "varsty", 'unknown level "varsty"; write "varsity" if that is what you mean'),
        ("--home", "Thrunnockby", '--home: "Thrunnockby" is not NAME=COLOUR; write such as "Thrunnockby=white"'),
        ("--home", "Ovvermire=white", "--visitor: both teams have the same name"),
        ("--home", "Thrunnockby=whit", 'unknown colour "whit"'),
        ("--film", FILMS / "sound-only.m4a", "sound"),
        ("--film", FILMS / "missing.mp4", "no such file"),
    ],
)
def test_a_set_up_that_cannot_be_leaves_no_file(say: Say, tmp_path: Path, option: str, value: object, told: str) -> None:
    answer = say("new", tmp_path / "game.filmreview", *changed(NEW, option, value))
    assert answer.code == 2
    assert told in answer.line
    assert list(tmp_path.iterdir()) == []


def test_a_review_is_never_written_over(say: Say, review: Path) -> None:
    before = digest(review)
    answer = say("new", review, *NEW)
    assert answer.code == 2
    assert "there is a file of that name already" in answer.line
    assert digest(review) == before


def test_crew_marks_are_a_closed_list(say: Say, review: Path) -> None:
    say("tag", review, *TAG)
    answer = say("crew", review, "t1", "--mark", "not sen")
    assert answer.code == 2
    assert 'unknown crew mark "not sen"; write "not seen" if that is what you mean' in answer.line
    assert 'unknown tag "t9"' in say("crew", review, "t9", "--mark", "late").line


def test_what_is_no_review(say: Say, tmp_path: Path) -> None:
    text = tmp_path / "notes.filmreview"
    text.write_text("not a review", encoding="utf-8")
    for path in (text, tmp_path / "missing.filmreview", tmp_path):
        answer = say("tag", path, *TAG)
        assert answer.code == 2
        assert str(path) in answer.line


@pytest.mark.parametrize("name", ["", ".", "/", ".filmreview"])
def test_what_names_no_review(say: Say, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, name: str) -> None:
    monkeypatch.chdir(tmp_path)
    answer = say("new", name, *NEW)
    assert answer.code == 2
    assert "REVIEW" in answer.line
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("time", ["xx", "", "nan", "99:99", "8:60"])
def test_a_time_before_the_start_that_cannot_be_is_not_kept(say: Say, review: Path, time: str) -> None:
    before = digest(review)
    answer = say("event", review, "--at", "1", "--what", "book number changed", "--team", "home", "--before-start", time)
    assert answer.code == 2
    assert "--before-start" in answer.line
    assert digest(review) == before
    assert say("findings", review).code == 0


def test_an_event_of_a_player_needs_the_player(say: Say, review: Path) -> None:
    answer = say("event", review, "--at", "1", "--what", "directed to leave")
    assert (answer.code, "give --team and --player" in answer.line) == (2, True)
    assert 'write "time-out granted"' not in say("event", review, "--at", "1", "--what", "dunk").line


def test_a_second_crew_mark_keeps_time_and_words(say: Say, review: Path) -> None:
    say("tag", review, *TAG)
    say("crew", review, "t1", "--mark", "late", "--at", "1", "--did", "told the coach")
    say("crew", review, "t1", "--mark", "as the book asks")
    (placed,) = read(review).tags
    assert placed.crew is not None
    assert (placed.crew.mark, placed.crew.did, placed.crew.moment is None) == ("as the book asks", "told the coach", False)


def test_a_player_off_the_roster_is_told_and_kept(say: Say, tmp_path: Path) -> None:
    path = tmp_path / "game.filmreview"
    say("new", path, *NEW, "--roster", "visitor=4,5")
    answer = say("tag", path, *TAG)
    assert (answer.code, answer.out) == (0, "t1\n")
    assert "14 is not on the roster of the visitor team" in answer.told
    assert "4 stands twice" in say("new", tmp_path / "other.filmreview", *NEW, "--roster", "home=4,4").line


def test_a_fact_is_given_once(say: Say, review: Path) -> None:
    answer = say("tag", review, *TAG, "--fact", "colour=red", "--fact", "colour=green")
    assert (answer.code, '"colour" is given twice' in answer.line) == (2, True)


def test_the_history_names_the_observer_and_not_the_login(say: Say, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("getpass.getuser", lambda: "login-17")
    named, plain = tmp_path / "named.filmreview", tmp_path / "plain.filmreview"
    for path, words in ((named, ("--observer", "Ann Tarrowby")), (plain, ())):
        assert say("new", path, *NEW, *words).code == 0
        assert say("tag", path, "--at", "1", "--team", "home", "--item", "jersey").code == 0
    assert {step.who for step in read_history(named)} == {"Ann Tarrowby"}
    assert b"login-17" not in named.read_bytes()
    assert {step.who for step in read_history(plain)} == {"login-17"}


def test_a_procedure_that_cannot_be_told_is_not_told_as_one_without_departures(say: Say, review: Path) -> None:
    """Whether a player with blood left (common practice: at once) hangs on what was not noted."""
    assert say("event", review, "--at", "0.7", "--what", "blood seen", "--team", "visitor", "--player", "14").code == 0
    procedure = say("findings", review, "--json").data["procedure"]
    assert procedure["ruling"] == "cannot be told"
    assert procedure["missing"]
    out = say("findings", review).out
    assert "procedure Blood on a player or the uniform: cannot be told" in out
    assert "0 departures" not in out
    assert all(f"not known: {one['why']}" in out for one in procedure["missing"])


def test_what_is_ahead_stands_with_the_books_own_reference(say: Say, tmp_path: Path) -> None:
    """NFHS 2024-25: the number may no longer be told by its outline alone (see the book's sources)."""
    path = tmp_path / "game.filmreview"
    assert say("new", path, *NEW).code == 0
    style = ("--fact", "number_style=jersey colour with border")
    assert say("tag", path, *changed(TAG, "--item", "number"), *style).code == 0
    (found,) = say("findings", path, "--json").data["rulings"]
    (one,) = found["ahead"]
    assert f"ahead: {one['ruling']} from {one['from']} ({one['reference']})" in say("findings", path).out
    assert one["reference"][0].isdigit()
