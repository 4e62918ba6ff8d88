"""Motion: a step, or a lane choice and the ball action after it, as a timeline the court can play."""

from engine.motion.timeline import timeline
from engine.motion.values import BallEvent, Run, Timeline

__all__ = ["BallEvent", "Run", "Timeline", "timeline"]
