"""A body in a pose: where its joints are.

Body coordinates in feet: side (towards the player's left), up, front. The turn is 0 when the player faces the camera, 90 when
facing the right edge of the picture, 180 when the back shows, in degrees.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

Place = tuple[float, float, float]
BODY_TALL = 6.2  # feet; people of other sizes are scaled
STEPS = 8  # poses to one round of steps


@dataclass(frozen=True)
class ArmPose:
    """Degrees: swing forward, spread to the side, bend of the elbow."""

    swing: float = 4.0
    spread: float = 9.0
    bend: float = 12.0


@dataclass(frozen=True)
class LegPose:
    """Degrees: swing forward of the thigh, spread to the side, bend of the knee."""

    swing: float = 0.0
    spread: float = 5.0
    bend: float = 0.0


@dataclass(frozen=True)
class Pose:
    """A whole pose. lean: degrees forward of the trunk."""

    left_arm: ArmPose = ArmPose()
    right_arm: ArmPose = ArmPose()
    left_leg: LegPose = LegPose()
    right_leg: LegPose = LegPose()
    lean: float = 0.0


def _gait(step: int, effort: float, bend: float, lean: float) -> Pose:
    """One pose of a round of running or walking steps."""
    wave = effort * math.sin(2 * math.pi * step / STEPS)
    other = effort * math.cos(2 * math.pi * step / STEPS)
    left_leg = LegPose(34 * wave, 3, 14 * effort + 44 * max(-other, 0))
    right_leg = LegPose(-34 * wave, 3, 14 * effort + 44 * max(other, 0))
    return Pose(ArmPose(-38 * wave, 8, bend), ArmPose(38 * wave, 8, bend), left_leg, right_leg, lean)


_CROUCH_LEG = LegPose(34, 11, 46)
POSES: Mapping[str, Pose] = {
    "stand": Pose(),
    "easy": Pose(ArmPose(8, 13, 24), ArmPose(2, 11, 14), LegPose(2, 7, 0), LegPose(0, 7, 2)),
    "wait": Pose(ArmPose(3, 7, 5), ArmPose(3, 7, 5), LegPose(1, 6, 0), LegPose(0, 6, 0)),
    "ready": Pose(ArmPose(10, 22, 40), ArmPose(10, 22, 40), _CROUCH_LEG, _CROUCH_LEG, 16),
    "hands on hips": Pose(ArmPose(-20, 38, 80), ArmPose(-20, 38, 80), LegPose(0, 7, 0), LegPose(0, 7, 0)),
    "hold ball": Pose(ArmPose(38, 4, 88), ArmPose(38, 4, 88), LegPose(10, 5, 14), LegPose(10, 5, 14)),
    "dribble": Pose(ArmPose(8, 14, 30), ArmPose(34, 10, 60), LegPose(18, 6, 26), LegPose(14, 6, 22), 8),
    "aim": Pose(ArmPose(112, 6, 86), ArmPose(112, 6, 92), LegPose(22, 5, 34), LegPose(22, 5, 34), 2),
    "release": Pose(ArmPose(140, 8, 18), ArmPose(158, 6, 6)),
    "arms up": Pose(ArmPose(165, 12, 10), ArmPose(165, 12, 10), LegPose(8, 6, 10), LegPose(8, 6, 10)),
    "defend": Pose(ArmPose(30, 68, 34), ArmPose(30, 68, 34), LegPose(36, 14, 50), LegPose(36, 14, 50), 18),
    "signal": Pose(ArmPose(4, 9, 10), ArmPose(168, 8, 4)),
    "beckon": Pose(ArmPose(4, 9, 10), ArmPose(62, 30, 64)),
    "clap": Pose(ArmPose(52, -12, 70), ArmPose(52, -12, 70)),
    "sit": Pose(ArmPose(22, 10, 66), ArmPose(22, 10, 66), LegPose(86, 10, 86), LegPose(86, 10, 86)),
    **{f"run {step}": _gait(step, 1.0, 75, 9) for step in range(STEPS)},
    **{f"walk {step}": _gait(step, 0.5, 22, 2) for step in range(STEPS)},
}  # fmt: skip

_UPPER_ARM, _FOREARM, _HAND = 0.98, 0.86, 0.32
_THIGH, _SHIN, _ANKLE, _FOOT = 1.50, 1.42, 0.26, 0.50
_TRUNK, _NECK, _HEAD = 1.90, 0.24, 0.42
_SHOULDER, _HIP = 0.66, 0.30


def _down(swing: float, spread: float, side: float, length: float) -> Place:
    a, b = math.radians(swing), math.radians(spread)
    return side * math.sin(b) * length, -math.cos(a) * math.cos(b) * length, math.sin(a) * math.cos(b) * length


def _add(place: Place, step: Place) -> Place:
    return place[0] + step[0], place[1] + step[1], place[2] + step[2]


def _arm(name: str, side: float, shoulder: Place, pose: ArmPose) -> dict[str, Place]:
    elbow = _add(shoulder, _down(pose.swing, pose.spread, side, _UPPER_ARM))
    inward = pose.spread * 0.3 if pose.bend < 60 else -8.0
    along = _down(pose.swing + pose.bend, inward, side, 1.0)
    wrist = _add(elbow, (along[0] * _FOREARM, along[1] * _FOREARM, along[2] * _FOREARM))
    hand = _add(wrist, (along[0] * _HAND, along[1] * _HAND, along[2] * _HAND))
    return {f"{name} shoulder": shoulder, f"{name} elbow": elbow, f"{name} wrist": wrist, f"{name} hand": hand}


def _leg(name: str, side: float, hip: Place, pose: LegPose) -> dict[str, Place]:
    knee = _add(hip, _down(pose.swing, pose.spread, side, _THIGH))
    ankle = _add(knee, _down(pose.swing - pose.bend, pose.spread * 0.4, side, _SHIN))
    toe = _add(ankle, (side * 0.10, -_ANKLE * 0.72, _FOOT))
    return {f"{name} hip": hip, f"{name} knee": knee, f"{name} ankle": ankle, f"{name} toe": toe}


def joints(pose: Pose) -> dict[str, Place]:
    """All joints of a body of `BODY_TALL`, the lower sole at height 0, the trunk over the origin."""
    lean = math.radians(pose.lean)
    rise, forward = math.cos(lean), math.sin(lean)
    neck = (0.0, _TRUNK * rise, _TRUNK * forward)
    found: dict[str, Place] = {"pelvis": (0.0, 0.0, 0.0), "neck": neck}
    found["chin"] = _add(neck, (0.0, _NECK * rise, _NECK * forward * 1.3))
    found["head"] = _add(found["chin"], (0.0, _HEAD, 0.05))
    for name, side, arm, leg in (("left", 1.0, pose.left_arm, pose.left_leg), ("right", -1.0, pose.right_arm, pose.right_leg)):
        found |= _arm(name, side, _add(neck, (side * _SHOULDER, -0.16, 0.0)), arm)
        found |= _leg(name, side, (side * _HIP, -0.04, 0.0), leg)
    lowest = min(found["left ankle"][1], found["right ankle"][1]) - _ANKLE
    return {name: (place[0], place[1] - lowest, place[2]) for name, place in found.items()}


def turned(place: Place, turn: float) -> Place:
    """(right in the picture, up, towards the camera) of a place of a body turned by so many degrees."""
    angle = math.radians(turn)
    side, up, front = place
    return side * math.cos(angle) + front * math.sin(angle), up, front * math.cos(angle) - side * math.sin(angle)
