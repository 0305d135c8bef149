"""Words for the pictures of a workbook, for readers who do not see them.

openpyxl gives every picture the same placeholder ("Picture") and no way to set another, so the drawings are rewritten in the
finished file: `descr` of `xdr:cNvPr` (ECMA-376, part 1, 20.5.2.8), in the order the pictures were added.
"""

from __future__ import annotations

import re
import zipfile
from collections.abc import Sequence
from pathlib import Path
from xml.sax.saxutils import quoteattr

from filmreview.sheets.inert import one_line

_PLACEHOLDER = re.compile(r'descr="Picture"')


def describe_pictures(path: Path, words: Sequence[str]) -> None:
    """Put the words into a finished workbook, of which one page holds pictures: one for each of them, in order."""
    left = iter(words)
    rewritten = path.with_name(f"{path.name}.described")
    try:
        with zipfile.ZipFile(path) as old, zipfile.ZipFile(rewritten, "w", zipfile.ZIP_DEFLATED) as new:
            for entry in old.infolist():
                data = old.read(entry)
                if entry.filename.startswith("xl/drawings/drawing"):
                    data = _PLACEHOLDER.sub(lambda _: f"descr={quoteattr(one_line(next(left)))}", data.decode()).encode()
                new.writestr(entry, data, entry.compress_type)
        rewritten.replace(path)
    finally:
        rewritten.unlink(missing_ok=True)
