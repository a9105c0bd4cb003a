"""Make QR codes (ISO/IEC 18004); the only place that uses qrcode."""

from __future__ import annotations

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


def numbered_texts(first: str, lines: list[str], version: int) -> list[str]:
    """Return the texts of as many codes as it takes, each with the first line, numbered if there are several.

    A line that is too long for a code ends with `…`; the first takes half of it at most.
    """
    first = _within(first, most_bytes(version) // 2)
    whole = "\n".join([first, *lines])
    if len(whole.encode()) <= most_bytes(version):
        return [whole]
    room = most_bytes(version) - len(f"{first} 99/99\n".encode())
    groups: list[list[str]] = [[]]
    for line in lines:
        if groups[-1] and len("\n".join([*groups[-1], line]).encode()) > room:
            groups.append([])
        groups[-1].append(_within(line, room))
    return ["\n".join([f"{first} {i}/{len(groups)}", *group]) for i, group in enumerate(groups, 1)]


def _within(line: str, room: int) -> str:
    """Return a line, or as much of it as has room with an ellipsis [bytes]."""
    if len(line.encode()) <= room:
        return line
    return line.encode()[: room - len("…".encode())].decode(errors="ignore") + "…"
