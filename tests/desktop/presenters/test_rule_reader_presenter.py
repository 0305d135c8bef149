"""The rule reader without a screen."""

from dataclasses import replace
from datetime import date

import pytest

from filmreview.desktop.desk_presenter import Desk
from filmreview.desktop.rule_reader_presenter import RuleReaderPresenter, Said
from filmreview.review.changes import EditGame
from filmreview.rules.library import book_named


@pytest.fixture
def reader(desk: Desk) -> RuleReaderPresenter:
    return RuleReaderPresenter(desk)


def heads(parts: tuple[Said, ...]) -> list[str]:
    return [part.head for part in parts if part.head]


def words(parts: tuple[Said, ...]) -> str:
    return " ".join(part.words for part in parts)


def play_on(desk: Desk, day: date, adoption: str | None = None) -> None:
    desk.store.apply(EditGame(replace(desk.review.game, day=day, adoption=adoption)))


def test_it_tells_book_edition_and_day(reader: RuleReaderPresenter) -> None:
    assert "edition 2023-24, game of 2023-12-05, varsity" in reader.head()


def test_rules_are_found_by_title_item_reference_and_text(reader: RuleReaderPresenter) -> None:
    codes = {code for code, _title in reader.rules()}
    assert codes == {rule.code for rule in book_named("nfhs").rules if not rule.levels or "varsity" in rule.levels}
    assert "sleeve-colour" in dict(reader.rules("sleeve"))
    assert "sleeve-colour" in dict(reader.rules("3-5-3 beige"))
    assert reader.rules("polka dots on the moon") == ()
    titles = [title for _code, title in reader.rules()]
    assert titles == sorted(titles)


def test_a_rule_reads_as_on_the_game_s_day_beside_what_it_was_before(reader: RuleReaderPresenter, desk: Desk) -> None:
    """The colour of sleeves and tights: the uniform's in 2014-15, the jersey's since (NFHS 3-5-3; comments on the
    rules 2015-16, as in the books here)."""
    reader.read("sleeve-colour")
    text = reader.text()
    assert "predominant colour of the jersey" in words(text.now)
    assert "Rule 3-5-3; so since 2016-07-01 (2016-17)" in words(text.now)
    assert "fix or leave" in words(text.now)
    assert "Consequence" in heads(text.now)
    assert heads(text.changes) == [
        "From 2015-07-01 until 2016-07-01",
        "From 2014-07-01 until 2015-07-01",
        "Before 2014-07-01",
    ]
    play_on(desk, date(2015, 1, 10))
    text = reader.text()
    assert "predominant colour of the uniform" in words(text.now)
    assert heads(text.changes)[:2] == ["Later, from 2016-07-01", "Later, from 2015-07-01"]


def test_a_rule_that_is_ahead_says_since_when_it_is_known(reader: RuleReaderPresenter) -> None:
    """The style of numbers from 2024-25 on was published in May 2019 (NFHS press release on the rules changes of 2019-20)."""
    assert dict(reader.rules())["number-style"].endswith("(ahead)")
    reader.read("number-style")
    assert "Later, from 2024-07-01 (known since 2019-05-15)" in heads(reader.text().changes)


def test_before_the_book_begins_it_has_no_text(reader: RuleReaderPresenter, desk: Desk) -> None:
    play_on(desk, date(2010, 1, 10))
    reader.read("sleeve-colour")
    assert "The book here has no text for that day." in words(reader.text().now)


def test_of_days_before_its_own_first_one_the_book_tells_nothing(reader: RuleReaderPresenter, desk: Desk) -> None:
    """A rule of the book's first day may well be older: the texts of earlier seasons were not seen here."""
    begins = "The book here begins on 2007-07-01; it does not tell of earlier days."
    reader.read("above-number")
    assert reader.text().changes[-1] == Said("Before 2007-07-01", begins)
    play_on(desk, date(2006, 1, 10))
    assert begins in words(reader.text().now)
    play_on(desk, date(2023, 12, 5))
    reader.read("sleeve-colour")
    assert reader.text().changes[-1] == Said("Before 2014-07-01", "The book here has no text.")


def test_an_adoption_is_told_at_the_rules_it_changes(reader: RuleReaderPresenter, desk: Desk) -> None:
    """Ohio lets headbands and wristbands be a school colour (the state association's modification of about 2014)."""
    play_on(desk, date(2023, 12, 5), "ohio-school-colour-bands")
    assert "adopted: Ohio" in reader.head()
    reader.read("band-colour")
    told = reader.text().changes[0]
    assert told.head == "Adopted: Ohio: headbands and wristbands may be a school colour"
    assert told.words.startswith("It sets team: jersey, trim (Ohio state association modification")
    reader.read("jewelry")
    assert reader.text().changes[0].words == "It leaves this rule as it is."


def test_a_rule_set_aside_says_so_and_still_reads(reader: RuleReaderPresenter, desk: Desk) -> None:
    play_on(desk, date(2023, 12, 5), "maryland-county-number-waiver")
    assert "set aside" in dict(reader.rules())["number-list"]
    reader.read("number-list")
    text = reader.text()
    assert heads(text.now)[0] == "Set aside on 2023-12-05"
    assert "The book itself says:" in words(text.now)
    assert text.changes[0].words.startswith("It sets this rule aside")


def test_another_day_is_told_to_the_view(reader: RuleReaderPresenter, desk: Desk) -> None:
    told: list[None] = []
    reader.rules()
    reader.events.on("rules", lambda: told.append(None))
    play_on(desk, date(2015, 1, 10))
    assert len(told) == 1
    assert "2014-15" in reader.head()


def test_a_book_that_is_gone_is_told(reader: RuleReaderPresenter, desk: Desk) -> None:
    desk.store.apply(EditGame(replace(desk.review.game, book="nfhs-2099")))
    assert reader.rules() == ()
    assert "nfhs" in desk.last_message
    desk.take_store(None)
    assert reader.head().startswith("No book to read")


def test_every_rule_of_every_book_can_be_read(reader: RuleReaderPresenter, desk: Desk) -> None:
    for book in ("nfhs", "ncaa-men", "ncaa-women", "fiba"):
        desk.store.apply(EditGame(replace(desk.review.game, book=book, level=None)))
        for code, _title in reader.rules():
            reader.read(code)
            text = reader.text()
            assert text is not None
            assert words(text.now).strip()
            assert text.changes
