"""Interlaced frames made whole: both fields are filled up to full pictures (the bwdif filter), one picture a frame.

The filter looks at the frame before and the one after. It is started anew at every group, so that a frame looks the same
however it was reached.
"""

from __future__ import annotations

import av
from av.filter import Graph


class FieldFiller:
    """Feeds frames in order through the filter; what comes out is as many frames, in the same order."""

    def __init__(self, first: av.VideoFrame) -> None:
        graph = Graph()
        source = graph.add_buffer(width=first.width, height=first.height, format=first.format, time_base=first.time_base)
        # send_frame: one picture for two fields; interlaced: leave whole frames between them alone.
        filler = graph.add("bwdif", mode="send_frame", deint="interlaced")
        graph.link_nodes(source, filler, graph.add("buffersink")).configure()
        self._graph = graph

    def push(self, frame: av.VideoFrame | None) -> list[av.VideoFrame]:
        """Feed one frame, None at the end; returns the frames that are done."""
        self._graph.vpush(frame)
        done = []
        while True:
            try:
                done.append(self._graph.vpull())
            except (av.BlockingIOError, av.EOFError):
                return done
