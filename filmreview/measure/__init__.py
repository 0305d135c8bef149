"""From pixels to facts with an honest uncertainty: colour, size, view.

In: a picture as numbers, a region, a reference of known colour or size. Out: facts that carry their uncertainty, or the reason
why the film cannot tell. Nothing here decides a rule. Read `colour` first, then `uncertainty`; `on_film` is the way in from a
film, `length` that for sizes by a known thing (`size`) or the floor (`floor`), `elapsed` for times, `contrast` for numbers.
"""
