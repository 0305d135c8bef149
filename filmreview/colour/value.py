"""One colour, exact or measured."""

from __future__ import annotations

from dataclasses import dataclass

Lab = tuple[float, float, float]
Covariance = tuple[Lab, Lab, Lab]


@dataclass(frozen=True)
class Colour:
    """A colour as the rules and the screens use it.

    lab: CIE 1976 L*a*b* for D65 and the 2-degree observer (ISO/CIE 11664-4).
    name: the palette name or "#rrggbb" it was given by; for a measured colour the likeliest palette name.
    covariance: 3x3 of L*, a*, b* of a measured colour, standard uncertainties squared on the diagonal; None for an exact one.
    names: palette names with probabilities of a measured colour, likeliest first; empty for an exact one.
    """

    lab: Lab
    name: str
    covariance: Covariance | None = None
    names: tuple[tuple[str, float], ...] = ()

    @property
    def measured(self) -> bool:
        """True when the colour carries an uncertainty."""
        return self.covariance is not None
