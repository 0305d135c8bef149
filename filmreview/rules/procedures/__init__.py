"""Procedures: what the book asks of a crew step by step, as dated data, and a runner that compares it with what happened.

In: `Event`s with film times, what was found on whom, the book and the day. Out: a `ProcedureResult` with the path taken, the
departures, or the event that is missing. Read `event` first, then `run`.
"""
