"""What can be known of a thing worn: the closed lists of items and fact keys, values with uncertainty, where they came from.

In: words and numbers from a file, a command line, a widget or a measurement. Out: frozen `Fact` values that the rules take
and the review stores. Read `fact` first, then `keys`.
"""
