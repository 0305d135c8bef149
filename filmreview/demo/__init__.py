"""The made-up game: invented schools and people, a drawn film, and the whole job done on it.

In: a folder to write to. Out: film, truth file, review, situations, findings sheet. Only the command line and tests import
this. Read `run` first, then `made_up_game` and `observed`; `play` and `drawing` make the film.
"""
