"""A maker of colour profiles as cameras and telephones embed them: three primaries and a curve (ICC.1, version 2)."""

import struct

import numpy as np

# Red, green, blue of Display P3 and of Adobe RGB (1998) as XYZ, adapted to the profile space's white (D50):
# the published columns, as they stand in such profiles.
DISPLAY_P3 = ((0.51512, 0.24120, -0.00105), (0.29198, 0.69225, 0.04189), (0.15710, 0.06657, 0.78407))
ADOBE_RGB = ((0.60974, 0.31111, 0.01947), (0.20528, 0.62567, 0.06087), (0.14919, 0.06322, 0.74457))
D50 = (0.9642, 1.0, 0.8249)


def profile(primaries: tuple[tuple[float, float, float], ...], name: str = "Wide") -> bytes:
    """A matrix profile with the curve of sRGB."""
    tags = {b"desc": _text(name), b"cprt": b"text\0\0\0\0none\0", b"wtpt": _xyz(D50)}
    for letter, column in zip(b"rgb", primaries, strict=True):
        tags[bytes([letter]) + b"XYZ"] = _xyz(column)
        tags[bytes([letter]) + b"TRC"] = _curve()
    place, table, body = 128 + 4 + 12 * len(tags), struct.pack(">I", len(tags)), b""
    for tag, content in tags.items():
        table += struct.pack(">4sII", tag, place + len(body), len(content))
        body += content + b"\0" * (-len(content) % 4)
    head = struct.pack(">I4sI4s4s4s", place + len(body), b"\0\0\0\0", 0x02400000, b"mntr", b"RGB ", b"XYZ ")
    head += struct.pack(">6H4s", 2026, 1, 1, 0, 0, 0, b"acsp").ljust(68 - len(head) + 0, b"\0")
    head = head.ljust(68, b"\0") + struct.pack(">3i", *(round(each * 65536) for each in D50))
    return head.ljust(128, b"\0") + table + body


def _xyz(values: tuple[float, float, float]) -> bytes:
    return b"XYZ \0\0\0\0" + struct.pack(">3i", *(round(each * 65536) for each in values))


def _text(words: str) -> bytes:
    plain = words.encode() + b"\0"
    return b"desc\0\0\0\0" + struct.pack(">I", len(plain)) + plain + b"\0" * 78


def _curve() -> bytes:
    steps = np.linspace(0, 1, 1024)
    light = np.where(steps <= 0.04045, steps / 12.92, ((steps + 0.055) / 1.055) ** 2.4)
    values = np.round(light * 65535).astype(">u2")
    return b"curv\0\0\0\0" + struct.pack(">I", len(values)) + values.tobytes()
