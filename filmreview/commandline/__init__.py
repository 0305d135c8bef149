"""The same work without a screen.

In: the words of a command. Out: lines or one JSON document, files, an exit code. Read `run` first.
"""
