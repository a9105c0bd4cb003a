"""Make QR codes (ISO/IEC 18004); the only place that uses qrcode."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache

import qrcode
from qrcode.constants import ERROR_CORRECT_M
from qrcode.util import BIT_LIMIT_TABLE, MODE_8BIT_BYTE, QRData, length_in_bits

MODULE_MM = 0.5
QUIET_MODULES = 4
_MASK = 2  # one fixed mask is within the standard; choosing the best is four fifths of the work


@cache
def code_rows(text: str) -> tuple[str, ...]:
    """Return the modules of a code at error correction M, rows of 1 (dark) and 0; text as UTF-8 bytes."""
    code = qrcode.QRCode(error_correction=ERROR_CORRECT_M, border=0, mask_pattern=_MASK)
    code.add_data(QRData(text.encode(), mode=MODE_8BIT_BYTE), optimize=0)
    code.make(fit=True)
    return tuple("".join("1" if module else "0" for module in row) for row in code.get_matrix())


def code_side_mm(rows: tuple[str, ...], module_mm: float = MODULE_MM) -> float:
    """Return the side of a code with its quiet zone [mm]."""
    return (len(rows) + 2 * QUIET_MODULES) * module_mm


_MODE_BITS = 4  # what says that bytes follow, before their number (ISO/IEC 18004, 7.4.1)


def most_bytes(version: int) -> int:
    """Return how many bytes fit into a code of that version at level M."""
    count_bits: int = length_in_bits(MODE_8BIT_BYTE, version)
    return int(BIT_LIMIT_TABLE[ERROR_CORRECT_M][version] - _MODE_BITS - count_bits) // 8


def as_much(lines: Sequence[str], side_mm: float) -> str:
    """Return as many lines as a code of that side holds, its quiet zone counted; where some lack it says how many.

    Without room for the first line and that there are more it is empty.
    """
    version = min((int(side_mm / MODULE_MM) - 2 * QUIET_MODULES - 17) // 4, 40)
    room = most_bytes(version) if version > 0 else 0
    for count in range(len(lines), 0, -1):
        rest = [f"… {len(lines) - count} more lines in the record"] if count < len(lines) else []
        text = "\n".join([*lines[:count], *rest])
        if len(text.encode()) <= room:
            return text
    return ""
