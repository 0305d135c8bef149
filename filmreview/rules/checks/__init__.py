"""The closed list of checks a book may name: each a small three-valued function over facts that carry their own uncertainty.

In: a thing worn (`worn.Worn`) with its facts, its team's words and its teammates. Out: fails, disputed, unknown, presumed or
holds; a clause for the reasons; the answers to a missing fact that make a difference. Read `answer`, then `listed`.
"""
