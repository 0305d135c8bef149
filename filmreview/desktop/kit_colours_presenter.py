"""The colours of both teams' kit as picked from the film, without a screen: each part measured once, from several regions.

In: regions that the person points at, and a name where the eye overrules the measured one. Out: one fact a part, as the set-up
keeps it.
"""

from __future__ import annotations

import itertools
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace

from filmreview.colour.palette import colour_named
from filmreview.colour.value import Colour
from filmreview.desktop.desk_presenter import Start
from filmreview.desktop.events import Events
from filmreview.desktop.measuring import Measuring, White
from filmreview.desktop.ruling_words import measured_words
from filmreview.desktop.white_words import NO_WHITE, WITH_WHITE, light_words
from filmreview.errors import FilmReviewError
from filmreview.facts.fact import Fact, Origin
from filmreview.facts.region import Box, Region
from filmreview.film.film import Film
from filmreview.film.frame import Frame
from filmreview.film.moment import Moment
from filmreview.measure.colour import MeasuredColour
from filmreview.measure.reference import Reference
from filmreview.measure.several import one_colour
from filmreview.measure.shape import apart, bounds_of
from filmreview.progress import Progress
from filmreview.review.model import PlacedReference

Part = tuple[str, str]
"""A side ("home", "visitor") and a part of the kit by its name in TEAM_FACTS."""

WHITE = colour_named("white")
_OTHER_TIME = 5.0  # seconds from which regions are taken for independent evidence
_OTHER_PLACE = 0.25  # of the picture's width: another place on the floor, in another light (both: project default)


@dataclass(frozen=True)
class Sample:
    """One region pointed at. measured: None while it is being measured, or cannot be; why_not: the reason then."""

    id: str
    moment: Moment
    region: Region
    measured: MeasuredColour | None = None
    why_not: str = ""

    @property
    def words(self) -> str:
        """What came of it."""
        if self.measured is None:
            return self.why_not or "being measured"
        measured = self.measured
        if measured.colour is None:
            return measured.why_not
        return f"{measured_words(measured.colour)}; {light_words(measured.reference, measured.elsewhere)}"


@dataclass(frozen=True)
class KitColour:
    """A part's colour. colour: from all samples; None when there is none. trouble: why not. shots: independent ones among the
    samples. overruled: the name that the eye gave it, "" for the measured one."""

    samples: tuple[Sample, ...] = ()
    colour: Colour | None = None
    trouble: str = ""
    shots: int = 0
    overruled: str = ""

    @property
    def words(self) -> str:
        """The colour and how it came about, for a person."""
        if self.overruled:
            seen = f"{self.overruled}, by eye"
            return f"{seen}; measured {self.colour.name}" if self.colour is not None else seen
        if self.colour is None:
            return self.trouble
        used = sum(sample.measured is not None and sample.measured.colour is not None for sample in self.samples)
        return f"{measured_words(self.colour)}; from {_count(used, 'region')}"


class KitColours:
    """What was picked so far. part: the one that regions go to. active: the sample being worked on.

    start, forget: for measuring beside the window. whites: the white pointed at on this film. events: "kit" when anything of it
    is different, "message" with `last_message`.
    """

    def __init__(self, film: Film, start: Start, forget: Callable[..., None], whites: tuple[PlacedReference, ...]) -> None:
        self.events = Events("kit", "message")
        self._film, self._start, self._forget = film, start, forget
        self._measuring = Measuring()
        self._measuring.take_film(film)
        self._numbers = itertools.count(1)
        self._kit: dict[Part, KitColour] = {}
        self._frames: dict[str, Frame] = {}
        self.whites = whites
        self.new_whites: tuple[PlacedReference, ...] = ()
        self.part: Part = ("home", "jersey")
        self.active: str | None = None
        self.last_message = ""

    def of(self, part: Part) -> KitColour:
        """What was picked of a part."""
        return self._kit.get(part, KitColour())

    @property
    def here(self) -> KitColour:
        """What was picked of the part that regions go to."""
        return self.of(self.part)

    @property
    def sample(self) -> Sample | None:
        """The sample being worked on."""
        return next((one for one in self.here.samples if one.id == self.active), None)

    def choose(self, part: Part) -> None:
        """Regions go to this part from now on."""
        if part != self.part:
            self.part, self.active = part, None
            self.events.tell("kit")

    def work_on(self, sample_id: str | None) -> None:
        """Another sample, or none, is worked on."""
        if sample_id != self.active:
            self.active = sample_id
            self.events.tell("kit")

    def draw(self, frame: Frame, region: Region) -> None:
        """One more region of the part."""
        sample = Sample(f"k{next(self._numbers)}", frame.moment, region)
        self._take((*self.here.samples, sample))
        self.active = sample.id
        self._measure(self.part, frame, sample)

    def change(self, frame: Frame, region: Region) -> None:
        """The region worked on was moved or reshaped."""
        sample = self.sample
        if sample is None:
            self.draw(frame, region)
            return
        changed = replace(sample, moment=frame.moment, region=region, measured=None, why_not="")
        self._take(tuple(changed if one.id == sample.id else one for one in self.here.samples))
        self._measure(self.part, frame, changed)

    def drop(self) -> None:
        """The region worked on is not of the part."""
        if self.active is None:
            return
        gone, self.active = self.active, None
        self._forget(_job(gone))
        self._frames.pop(gone, None)
        self._take(tuple(one for one in self.here.samples if one.id != gone))

    def overrule(self, name: str) -> None:
        """The eye says this name; "" for the measured one."""
        self._kit[self.part] = replace(self.here, overruled=name)
        self.events.tell("kit")

    def point_at_white(self, frame: Frame, box: Box) -> None:
        """This is white in truth: once it is known to serve, every region is measured anew against the white nearest to it."""

        def work(progress: Progress) -> Reference:
            progress(0.0, "looking at the white")
            return self._measuring.try_white(frame, box, WHITE)

        def then(_reference: Reference) -> None:
            white = PlacedReference(f"k{next(self._numbers)}", "", frame.moment, box, WHITE)
            self.new_whites = (*(one for one in self.new_whites if one.moment != frame.moment), white)
            self._say("this is the white from now on; what was picked is measured against it")
            self._measure_all()

        def failed(error: FilmReviewError) -> None:
            self._say(str(error))
            self.events.tell("kit")  # what was drawn there is no white

        self._start(work, then, failed, "kit white")

    def facts(self) -> Mapping[Part, Fact]:
        """What the set-up takes over: a measured fact a part, or what the eye saw instead of it."""
        found = {}
        for part, kit in self._kit.items():
            if kit.overruled:
                why = f"by eye; measured: {measured_words(kit.colour)}" if kit.colour is not None else "by eye, from the film"
                found[part] = Fact(part[1], (colour_named(kit.overruled),), Origin.SEEN, why)
            elif kit.colour is not None:
                found[part] = Fact(part[1], (kit.colour,), Origin.MEASURED, _why(kit))
        return found

    @property
    def busy(self) -> bool:
        """Whether anything is still being measured."""
        return any(sample.measured is None and not sample.why_not for kit in self._kit.values() for sample in kit.samples)

    @property
    def all_whites(self) -> tuple[PlacedReference, ...]:
        """The whites that count: those pointed at here in place of the review's own on the same frames."""
        new = {one.moment for one in self.new_whites}
        return (*self.new_whites, *(one for one in self.whites if one.moment not in new))

    def white_on(self, moment: Moment) -> PlacedReference | None:
        """The white pointed at on this very frame."""
        return next((one for one in self.all_whites if one.moment == moment), None)

    def white_against(self, sample: Sample) -> White | None:
        """The white that a sample was measured against; None for none."""
        measured = sample.measured
        return self._measuring.white_of(sample.moment, sample.region) if measured and measured.reference else None

    def _measure_all(self) -> None:
        for part, kit in list(self._kit.items()):
            for sample in kit.samples:
                if sample.id in self._frames:
                    self._measure(part, self._frames[sample.id], sample)

    def _measure(self, part: Part, frame: Frame, sample: Sample) -> None:
        self._frames[sample.id] = frame
        whites = self.all_whites

        def work(progress: Progress) -> MeasuredColour:
            return self._measuring.measure(frame, sample.region, whites, progress)

        def then(measured: MeasuredColour) -> None:
            self._measured(part, sample, measured, "")

        def failed(error: FilmReviewError) -> None:
            self._measured(part, sample, None, str(error))

        self._start(work, then, failed, _job(sample.id))

    def _measured(self, part: Part, sample: Sample, measured: MeasuredColour | None, why_not: str) -> None:
        """It comes late when the sample was moved or dropped since, and is nobody's then."""
        samples = self.of(part).samples
        if any((one.id, one.region, one.moment) == (sample.id, sample.region, sample.moment) for one in samples):
            done = replace(sample, measured=measured, why_not=why_not)
            self._take(tuple(done if one.id == sample.id else one for one in samples), part)

    def _take(self, samples: tuple[Sample, ...], part: Part | None = None) -> None:
        part = part or self.part
        found = [(one, one.measured.colour) for one in samples if one.measured is not None and one.measured.colour is not None]
        shots = shots_of([one for one, _ in found], self._film.info.width)
        colour, trouble = None, ""
        if found:
            try:
                colour = one_colour([(measured, shot) for (_, measured), shot in zip(found, shots, strict=True)])
            except FilmReviewError as error:
                trouble = str(error)
        self._kit[part] = replace(self.of(part), samples=samples, colour=colour, trouble=trouble, shots=len(set(shots)))
        self.events.tell("kit")

    def _say(self, words: str) -> None:
        self.last_message = words
        self.events.tell("message")


def shots_of(samples: list[Sample], width: int) -> list[str]:
    """Which samples share their light: a name each, the same for those near one another in time and in the picture.

    The error of a measured colour is that of the light it stands in: only another time or another place on the floor tells
    anything new. width: of the picture.
    """
    names: list[str] = []
    for sample in samples:
        near = (name for other, name in zip(samples, names, strict=False) if _shares_light(sample, other, width))
        names.append(next(near, str(len(names))))
    return names


def _shares_light(one: Sample, other: Sample, width: int) -> bool:
    far = apart(bounds_of(one.region), bounds_of(other.region)) > _OTHER_PLACE * width
    return abs(float(one.moment.seconds - other.moment.seconds)) < _OTHER_TIME and not far


def _why(kit: KitColour) -> str:
    assert kit.colour is not None
    used = [one.measured for one in kit.samples if one.measured is not None and one.measured.colour is not None]
    light = WITH_WHITE if all(measured.reference for measured in used) else NO_WHITE
    return f"{measured_words(kit.colour)}; {_count(len(used), 'region')}, {_count(kit.shots, 'time or place')}, {light}"


def _count(number: int, what: str) -> str:
    return f"{number} {what}" if number == 1 else f"{number} {what}s".replace("time or places", "times or places")


def _job(sample_id: str) -> str:
    return f"kit {sample_id}"
