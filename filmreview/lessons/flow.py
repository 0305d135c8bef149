"""How a patch of a picture moved from one frame to the next: many small windows in it, each followed by itself, and what most
of them agree on.

Windows are followed by the inverse compositional form of Lucas and Kanade (Baker and Matthews 2004, "Lucas-Kanade 20 years on",
section 3.2) on a pyramid of pictures; the agreement is that of the median flow (Kalal, Mikolajczyk and Matas 2010,
"Forward-backward error": points that do not come back to where they started are left out). Both from memory.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Grey = NDArray[np.float32]
Points = NDArray[np.float64]
"""(n, 2): x, y."""

_ACROSS = 7  # windows across the patch and down it
_HALF = 3  # pixels of a window on each side of its middle
_ROUNDS = 6
_STILL = 0.02  # pixels: a smaller step ends the search
_FEWEST = 10  # windows that must agree
_LARGEST_CHANGE = 1.25  # of the size from one frame to the next
_OFFSETS = np.stack(np.meshgrid(np.arange(-_HALF, _HALF + 1), np.arange(-_HALF, _HALF + 1)), axis=-1).reshape(-1, 2)


@dataclass(frozen=True)
class Step:
    """How the patch moved: shift of its middle in pixels, change of its size. sure: the share of windows that agree, 0 to 1."""

    x: float
    y: float
    scale: float
    sure: float


def flow(
    before: list[Grey], after: list[Grey], patch: tuple[float, float, float, float], guess: tuple[float, float]
) -> Step | None:
    """How a patch moved between two pictures, or None when too few windows agree.

    before, after: pyramids of `pyramid`, alike. patch: left, top, width, height in the first picture of them. guess: the shift
    to start from.
    """
    start = _grid(patch)
    there, good = _followed(before, after, start, start + np.asarray(guess))
    back, back_good = _followed(after, before, there, start)
    away = np.hypot(*(back - start).T)
    likeness = _likeness(before[0], after[0], start, there)
    kept = good & back_good & (away <= max(1.0, float(np.median(away)))) & (likeness > 0.5)
    if kept.sum() < _FEWEST:
        return None
    start, there = start[kept], there[kept]
    scale = _scale(start, there)
    middle = np.array([patch[0] + patch[2] / 2, patch[1] + patch[3] / 2])
    shift = np.median(there - middle - scale * (start - middle), axis=0)
    agree = np.hypot(*(there - middle - scale * (start - middle) - shift).T) < 2.0
    return Step(float(shift[0]), float(shift[1]), scale, float(agree.sum()) / len(good))


def pyramid(picture: Grey, levels: int) -> list[Grey]:
    """The picture and its halves, the largest first."""
    made = [picture]
    for _ in range(levels - 1):
        height, width = (side // 2 * 2 for side in made[-1].shape)
        if min(height, width) < 4 * (2 * _HALF + 1):
            break
        whole = made[-1][:height, :width]
        made.append((whole[::2, ::2] + whole[1::2, ::2] + whole[::2, 1::2] + whole[1::2, 1::2]) * np.float32(0.25))
    return made


def _grid(patch: tuple[float, float, float, float]) -> Points:
    """Middles of the windows, evenly over the patch and a little inside it."""
    left, top, width, height = patch
    share = (np.arange(_ACROSS) + 0.5) / _ACROSS * 0.9 + 0.05
    x, y = np.meshgrid(left + share * width, top + share * height)
    return np.stack([x.ravel(), y.ravel()], axis=1)


def _followed(before: list[Grey], after: list[Grey], start: Points, guess: Points) -> tuple[Points, NDArray[np.bool_]]:
    """Where windows went, and which have enough in them to tell."""
    shift, good = (guess - start) / 2 ** (len(before) - 1), np.ones(len(start), bool)
    for level in reversed(range(len(before))):
        middles = start / 2**level
        window = _windows(before[level], middles)
        gradient = _gradients(before[level], middles)
        transposed = gradient.transpose(0, 2, 1)
        square = transposed @ gradient
        strength = np.linalg.eigvalsh(square)[:, 0]
        told = strength > 1e-3 * len(_OFFSETS)
        square[~told] = np.eye(2)
        good = told if level == 0 else good
        inverse = np.linalg.inv(square)
        for _ in range(_ROUNDS):
            away = _windows(after[level], middles + shift) - window
            step = (inverse @ (transposed @ away[..., None]))[..., 0]
            shift -= np.where(told[:, None], np.clip(step, -4, 4), 0)
            if np.abs(step[told]).max(initial=0) < _STILL:
                break
        if level:
            shift *= 2
    return start + shift, good


def _windows(picture: Grey, middles: Points) -> NDArray[np.float64]:
    """(n, pixels of a window), between pixels bilinear; outside the picture its edge."""
    height, width = picture.shape
    places = middles[:, None, :] + _OFFSETS[None]
    x, y = np.clip(places[..., 0], 0, width - 1.001), np.clip(places[..., 1], 0, height - 1.001)
    left, top = x.astype(np.intp), y.astype(np.intp)
    across, down = x - left, y - top
    at = top * width + left
    flat = picture.ravel()
    upper = flat[at] * (1 - across) + flat[at + 1] * across
    lower = flat[at + width] * (1 - across) + flat[at + width + 1] * across
    whole: NDArray[np.float64] = upper * (1 - down) + lower * down
    return whole


def _gradients(picture: Grey, middles: Points) -> NDArray[np.float64]:
    """(n, pixels of a window, 2): slope along x and y."""
    sides = ((1.0, 0.0), (0.0, 1.0))
    slopes = [(_windows(picture, middles + side) - _windows(picture, middles - np.asarray(side))) / 2 for side in sides]
    return np.stack(slopes, axis=-1)


def _likeness(before: Grey, after: Grey, start: Points, there: Points) -> NDArray[np.float64]:
    """Normalised cross-correlation of every window with itself later, -1 to 1."""
    one, other = _windows(before, start), _windows(after, there)
    one, other = one - one.mean(axis=1, keepdims=True), other - other.mean(axis=1, keepdims=True)
    size = np.sqrt((one**2).sum(axis=1) * (other**2).sum(axis=1))
    likeness: NDArray[np.float64] = (one * other).sum(axis=1) / np.maximum(size, 1e-9)
    return likeness


def _scale(start: Points, there: Points) -> float:
    """The median ratio of the distances between all pairs, later to earlier."""
    first, second = np.triu_indices(len(start), k=1)
    earlier = np.hypot(*(start[first] - start[second]).T)
    later = np.hypot(*(there[first] - there[second]).T)
    far = earlier > np.median(earlier)  # near pairs tell little of the size
    ratio = float(np.median(later[far] / earlier[far])) if far.any() else 1.0
    return min(max(ratio, 1 / _LARGEST_CHANGE), _LARGEST_CHANGE)
