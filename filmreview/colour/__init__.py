"""Colour arithmetic: spaces, differences, contrast, names and the chance that a limit is kept.

In: sRGB or CIE L*a*b* values, colour names, hexadecimal codes. Out: `Colour` values, CIEDE2000 differences, probabilities.
Knows nothing of films or rules. Read `value` first.
"""
