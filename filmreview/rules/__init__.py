"""Books as dated data, and the engine that rules by them.

In: tags with facts, what the teams declared, a book, the game's day, an adoption. Out: rulings with reasons, the facts that
could still change them, penalties, choices of a team, ahead notes. Pure: no clock, no film. Read `judge` first, then `book`.
"""
