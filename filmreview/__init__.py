"""filmreview: review basketball film for uniforms, equipment and apparel.

In: film files, a rule book by its day, what the reviewer saw. Out: rulings, a findings sheet. Read first: DEVELOPERS.md,
then `filmreview.commandline.run`, which calls every room in the order of the work.
"""

__version__ = "0.1.0"
