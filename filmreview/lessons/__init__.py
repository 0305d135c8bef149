"""Teaching clips: cut, hold, mark, caption, blur; lessons of many clips with questions and answers.

In: clips, each a span of a film with what is to be shown of it. Out: films (mp4, with chapters), captions, pages and sheets.
Read `clip` first, then `pictures` (which pictures a clip is made of) and `writing`.
"""
