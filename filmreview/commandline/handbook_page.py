"""The handbook as one page (HTML): what an official would read before the season."""

from __future__ import annotations

from html import escape

from filmreview.cautions import ALL
from filmreview.rules.adopted import Adopted, adopted_limits
from filmreview.rules.handbook import Entry, Handbook

_STYLE = """
:root { color-scheme: light dark; }
body { font: 1rem/1.5 system-ui, sans-serif; max-width: 46rem; margin: 2rem auto; padding: 0 1rem; }
h1 { font-size: 1.6rem; } h2 { font-size: 1.1rem; margin: 1.6rem 0 0.2rem; }
p { margin: 0.2rem 0; } .source, .caution { font-size: 0.85rem; opacity: 0.8; }
.change { border-left: 0.25rem solid; padding-left: 0.75rem; margin-top: 0.4rem; }
@media print { h2 { break-after: avoid; } }
"""


def page_of(shown: Handbook) -> str:
    """One HTML document without scripts or anything from elsewhere."""
    title = f"{shown.book.title}, edition {shown.season}"
    changed = [entry for entry in shown.entries if entry.changed]
    ahead = [entry for entry in shown.entries if entry.ahead is not None]
    body = [
        f"<h1>{escape(title)}</h1>",
        f"<p>In force on {shown.day.isoformat()}, in our own words. {escape(' '.join(ALL))}</p>",
        f'<p class="caution">Not seen: {escape(shown.unseen)}</p>' if shown.unseen else "",
        _index("New this season", changed),
        _index("Ahead", ahead),
        f'<p class="change">{escape(adoption_words(shown))}</p>' if shown.adoption else "",
        *(_section(entry, shown) for entry in shown.entries),
        _costs(shown),
        _gaps(shown),
    ]
    head = f'<meta charset="utf-8"><meta name="viewport" content="width=device-width"><title>{escape(title)}</title>'
    return (
        f'<!doctype html>\n<html lang="en"><head>{head}<style>{_STYLE}</style></head><body>\n'
        + "\n".join(body)
        + "\n</body></html>\n"
    )


def adoption_words(shown: Handbook) -> str:
    """Which adoption is laid over the book, and whether it is in force."""
    adoption = shown.adoption
    if adoption is None:
        return ""
    if not shown.counts:
        return f"The adoption {adoption.code} is not in force on {shown.day.isoformat()} at this level: nothing is changed."
    limits = adopted_limits(adoption)
    own = f" Its own limits for colours: {limits}." if limits else ""
    return f"With the adoption {adoption.code}: {adoption.title} ({adoption.mark}: {adoption.source}).{own}"


def adopted_words(shown: Handbook, one: Adopted) -> str:
    """One change of the adoption, with its own source."""
    code = shown.adoption.code if shown.adoption else ""
    return f"the adoption {code} {one.what} ({one.mark}: {one.source})"


def _index(title: str, entries: list[Entry]) -> str:
    if not entries:
        return ""
    lines = "".join(f'<li><a href="#{escape(one.rule.code)}">{escape(one.rule.title)}</a></li>' for one in entries)
    return f"<p><strong>{title}</strong></p><ul>{lines}</ul>"


def _section(entry: Entry, shown: Handbook) -> str:
    edition = entry.edition
    parts = [f'<h2 id="{escape(entry.rule.code)}">{escape(entry.rule.title)}</h2>']
    if edition is not None:
        ended = f"Ended on {edition.starts.isoformat()}."
        parts.append(f"<p>{ended if edition.kind == 'repealed' else escape(edition.says)}</p>")
        where = f"{edition.reference}, since {edition.starts.isoformat()}; {edition.mark}: {edition.source}"
        parts.append(f'<p class="source">{escape(where)}</p>')
    if entry.changed:
        before = entry.before.says if entry.before else "nothing on this point"
        parts.append(f'<p class="change">New this season. Before: {escape(before)}</p>')
    if entry.ahead is not None:
        words = f"Ahead, from {entry.ahead.starts.isoformat()}: {entry.ahead.says}"
        parts.append(f'<p class="change">{escape(words)}</p>')
    parts += [f'<p class="change">{escape(adopted_words(shown, one))}</p>' for one in entry.adopted]
    return "".join(parts)


def _costs(shown: Handbook) -> str:
    lines = [
        f"<li><strong>{escape(group.title)}</strong>: {escape(cost.costs)}; {escape(group.says_of(cost))} "
        f'<span class="source">{escape(cost.reference)}; {escape(cost.mark)}: {escape(cost.source)}</span>'
        + "".join(
            f'<p class="change">{escape(adopted_words(shown, one))}</p>' for one in shown.adopted_costs.get(group.code, ())
        )
        + "</li>"
        for group in shown.groups
        for cost in [group.on(shown.day)]
        if cost is not None
    ]
    return "<h2>Consequence</h2><ul>" + "".join(lines) + "</ul>"


def _gaps(shown: Handbook) -> str:
    if not shown.gaps:
        return ""
    return "<h2>No text here</h2><ul>" + "".join(f"<li>{escape(gap)}</li>" for gap in shown.gaps) + "</ul>"
