"""In which order an aircraft is switched on and off. Values only."""

from __future__ import annotations

from enum import IntEnum

from docgen.basics.frozen import frozen


class Stage(IntEnum):
    """What something is switched for, in the order of switching on."""

    RADIO = 0
    SERVICE = 1
    DRIVE = 2


@frozen(slots=True)
class Act:
    """One act: what is switched or stopped together, how, and what shows it, both as written, or nothing.

    It `drives` if from then on, or until then, a motor or engine has what it runs on.
    """

    names: tuple[str, ...]
    stage: Stage
    how: str
    shows: str
    drives: bool = False


@frozen(slots=True)
class Switching:
    """Acts in the order of time: on; what drives is stopped; off. `carried` are keys that are put in last and carried.

    With a transmitter, which is on before all and off after all, where there is a receiver.
    """

    on: tuple[Act, ...] = ()
    stop: tuple[Act, ...] = ()
    off: tuple[Act, ...] = ()
    carried: tuple[str, ...] = ()
