"""Letters of a circuit's segments."""

from __future__ import annotations

import string

_LETTERS = [letter for letter in string.ascii_uppercase if letter not in "IO"]


def segment_letters(count: int) -> list[str]:
    """Return A, B, … without I and O, which look like figures; after Z comes AA.

    Source: the wire numbering of the US Navy Electricity and Electronics Training Series, module 4.
    """
    pairs = [first + second for first in _LETTERS for second in _LETTERS] if count > len(_LETTERS) else []
    return (_LETTERS + pairs)[:count]
