"""Reach the pictures of a film: time base, index, exact frames, sound, playback.

In: a film file. Out: `Film`, `Frame`, `Moment`, and a `Playback` that shows them. Read `film` first, then `moment` and
`playback`.
"""
