"""The desk: the window, and the only room that knows Qt.

In: a review, a film, what the person does. Out: changes to the review, a findings sheet. Read `app` first.
"""
