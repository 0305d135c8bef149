"""Facts survive being kept as JSON."""

import json

from hypothesis import given
from hypothesis import strategies as st

from filmreview.colour.value import Colour
from filmreview.facts.fact import Amount, Fact, Origin
from filmreview.facts.keys import KEYS, Kind
from filmreview.facts.region import Box, box_from_json, box_to_json
from filmreview.facts.stored import fact_from_json, fact_to_json

NUMBER = st.floats(min_value=-200, max_value=200)
LAB = st.tuples(NUMBER, NUMBER, NUMBER)
EXACT = st.builds(Colour, LAB, st.text(min_size=1))
MEASURED = st.builds(
    Colour, LAB, st.text(min_size=1), st.tuples(LAB, LAB, LAB), st.lists(st.tuples(st.text(), st.floats(0, 1))).map(tuple)
)
VALUES = {
    Kind.COLOURS: st.lists(EXACT | MEASURED, min_size=1, max_size=3).map(tuple),
    Kind.AMOUNT: st.builds(Amount, st.floats(0, 1e5), st.floats(0, 1e3)),
    Kind.YES_NO: st.booleans(),
    Kind.CHOICE: st.text(),
    Kind.NUMBER_TEXT: st.text(),
}
FACTS = st.sampled_from(list(KEYS.values())).flatmap(
    lambda key: st.builds(Fact, st.just(key.name), VALUES[key.kind], st.sampled_from(Origin), st.text())
)


@given(FACTS)
def test_a_fact_comes_back_as_it_was(fact: Fact) -> None:
    assert fact_from_json(json.loads(json.dumps(fact_to_json(fact)))) == fact


@given(st.builds(Box, st.integers(0, 9999), st.integers(0, 9999), st.integers(1, 9999), st.integers(1, 9999)))
def test_a_region_comes_back_as_it_was(box: Box) -> None:
    assert box_from_json(json.loads(json.dumps(box_to_json(box)))) == box
