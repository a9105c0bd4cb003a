"""Results of parts that builders have at hand: common practice, no source.

They are kept twice, here and in the built-in list, so that a slip of a finger in either is noticed: who changes one
looks the part up again.
"""

# Wires: outside diameter [mm], mass [g/m], what the insulation stands [°C], current [A] (None: by table 11-9), and the
# lengths [m] that spools are sold in.
WIRES: dict[str, tuple[float, float, int, float | None, tuple[int, ...]]] = {
    "pvc-8": (5.4, 92, 80, 40, (5, 10)),
    "pvc-10": (4.2, 52.5, 80, 28, (5, 10)),
    "pvc-12": (3.4, 34.5, 80, 20, (5, 10)),
    "pvc-14": (2.8, 23.5, 80, 15, (5, 10)),
    "pvc-16": (2.4, 15.5, 80, 10, (5, 10, 25)),
    "pvc-18": (2.1, 11, 80, 7, (5, 10, 25)),
    "pvc-20": (1.8, 7.4, 80, 5, (5, 10, 25)),
    "pvc-22": (1.6, 5.2, 80, 3, (5, 10, 25)),
    "pvc-24": (1.4, 3.8, 80, 2.5, (5, 10, 25)),
    "pvc-26": (1.3, 2.9, 80, 2, (5, 10, 25)),
    "pvc-28": (1.2, 2.3, 80, 1, (5, 10, 25)),
    "pvc-014": (1.1, 2.4, 80, 2, (5, 10, 25)),
    "pvc-025": (1.4, 4.0, 80, 2.5, (5, 10, 25)),
    "pvc-034": (1.5, 5.0, 80, 3, (5, 10, 25)),
    "pvc-050": (1.8, 7.2, 80, 4.5, (5, 10, 25)),
    "pvc-075": (2.0, 9.9, 80, 6, (5, 10, 25)),
    "pvc-100": (2.2, 12.6, 80, 8, (5, 10, 25)),
    "pvc-150": (2.6, 18.4, 80, 11, (5, 10)),
    "pvc-250": (3.2, 29.5, 80, 16, (5, 10)),
    "pvc-400": (3.9, 46, 80, 22, (5, 10)),
    "lead-22": (1.4, 4.6, 80, 3, ()),
    "lead-24": (1.2, 3.2, 80, 2.5, ()),
    "lead-26": (1.0, 2.2, 80, 2, ()),
    "lead-28": (0.9, 1.6, 80, 1, ()),
    "fluoro-8": (5.0, 90, 150, None, (5, 10)),
    "fluoro-10": (3.4, 47, 150, None, (5, 10)),
    "fluoro-12": (2.8, 31, 150, None, (5, 10)),
    "fluoro-14": (2.3, 20.2, 150, None, (5, 10)),
    "fluoro-16": (2.0, 13.7, 150, None, (5, 10)),
    "fluoro-18": (1.7, 10.7, 150, None, (5, 10)),
    "fluoro-20": (1.5, 7.4, 150, None, (5, 10, 25)),
    "fluoro-22": (1.3, 5.1, 150, None, (5, 10, 25)),
    "fluoro-24": (1.1, 3.6, 150, None, (5, 10, 25)),
    "fluoro-26": (1.0, 2.5, 150, 2, (10, 50)),
    "fluoro-28": (0.9, 1.8, 150, 1.5, (5, 10, 25)),
    "silicone-8": (6.4, 108, 200, 90, (1, 5, 10)),
    "silicone-10": (5.5, 68, 200, 65, (1, 5, 10)),
    "silicone-12": (4.5, 44, 200, 45, (1, 5, 10)),
    "silicone-14": (3.5, 28, 200, 30, (1, 5, 10)),
    "silicone-16": (3.0, 19, 200, 20, (5, 10, 25)),
    "silicone-18": (2.3, 12.2, 200, 14, (5, 10, 25)),
    "silicone-20": (1.8, 7.6, 200, 10, (5, 10, 25)),
    "silicone-22": (1.7, 5.5, 200, 7, (5, 10, 25)),
    "silicone-24": (1.6, 4.2, 200, 5, (5, 10, 25)),
    "silicone-26": (1.5, 3.3, 200, 3, (5, 10, 25)),
    "silicone-28": (1.2, 2.1, 200, 2, (5, 10, 25)),
}

# Leads: wire and colour by role, lay [mm] (0: straight), and how they are bought ("": made up of wires).
LEADS: dict[str, tuple[str, int, str]] = {
    "power-20": ("negative pvc-20 BK, positive pvc-20 RD", 25, ""),
    "power-18": ("negative pvc-18 BK, positive pvc-18 RD", 30, ""),
    "power-16": ("negative pvc-16 BK, positive pvc-16 RD", 35, ""),
    "power-14": ("negative silicone-14 BK, positive silicone-14 RD", 0, ""),
    "power-12": ("negative silicone-12 BK, positive silicone-12 RD", 0, ""),
    "power-10": ("negative silicone-10 BK, positive silicone-10 RD", 0, ""),
    "power-075": ("negative pvc-075 BK, positive pvc-075 RD", 30, ""),
    "power-150": ("negative pvc-150 BK, positive pvc-150 RD", 40, ""),
    "servo-20": ("negative pvc-20 BK, positive pvc-20 RD, signal pvc-20 WH", 30, ""),
    "servo-22": ("negative pvc-22 BK, positive pvc-22 RD, signal pvc-22 WH", 25, ""),
    "servo-24": ("negative pvc-24 BK, positive pvc-24 RD, signal pvc-24 WH", 25, ""),
    "servo-26": ("negative pvc-26 BK, positive pvc-26 RD, signal pvc-26 WH", 20, ""),
    "servo-025": ("negative pvc-025 BN, positive pvc-025 RD, signal pvc-025 OG", 25, ""),
    "servo-034": ("negative pvc-034 BN, positive pvc-034 RD, signal pvc-034 OG", 25, ""),
    "servo-fluoro-20": ("negative fluoro-20 BK, positive fluoro-20 RD, signal fluoro-20 WH", 25, ""),
    "servo-fluoro-22": ("negative fluoro-22 BK, positive fluoro-22 RD, signal fluoro-22 WH", 20, ""),
    "servo-silicone-20": ("negative silicone-20 BK, positive silicone-20 RD, signal silicone-20 WH", 30, ""),
    "servo-silicone-22": ("negative silicone-22 BK, positive silicone-22 RD, signal silicone-22 WH", 25, ""),
    "signal-26": ("negative fluoro-26 BK, signal fluoro-26 WH", 20, ""),
    "signal-24": ("negative pvc-24 BK, signal pvc-24 WH", 20, ""),
    "lone-26": ("signal fluoro-26 WH", 0, ""),
    "light-24": ("negative pvc-24 BK, positive pvc-24 RD", 20, ""),
    "address-24": ("negative pvc-24 BK, positive pvc-24 RD, data pvc-24 GN, clock pvc-24 WHGN", 30, ""),
    "motor-22": ("one pvc-22 YE, other pvc-22 BU", 25, ""),
    "motor-18": ("one pvc-18 YE, other pvc-18 BU", 30, ""),
    "motor-14": ("one silicone-14 YE, other silicone-14 BU", 0, ""),
    "brake-24": ("feed pvc-24 VT, return pvc-24 GY", 20, ""),
    "twisted-22": ("negative pvc-22 BN, positive pvc-22 RD, signal pvc-22 OG", 30, "twisted"),
    "twisted-26": ("negative pvc-26 BN, positive pvc-26 RD, signal pvc-26 OG", 25, "twisted"),
    "flat-22": ("negative lead-22 BN, positive lead-22 RD, signal lead-22 OG", 0, "flat"),
    "flat-26": ("negative lead-26 BN, positive lead-26 RD, signal lead-26 OG", 0, "flat"),
    "cable-22": ("negative lead-22 BN, positive lead-22 RD, signal lead-22 YE", 0, "cable"),
    "cable-24": ("negative lead-24 BN, positive lead-24 RD, signal lead-24 YE", 0, "cable"),
}
REVERSING_LEADS = {"motor-22", "motor-18", "motor-14"}
# Of a magnet brake neither wire is negative, but it is fed by a supply.
SUPPLYING_LEADS = {"brake-24"}
# Diameter over the jacket [mm].
CABLES_MM = {"cable-22": 4.4, "cable-24": 4.0}

# Plugs: the roles in the order of their contacts, what the equipment's half carries, size [mm], pitch [mm] (0: none
# said), and whether a mated pair wants a retainer.
PLUGS: dict[str, tuple[str, str, tuple[float, float], float, bool]] = {
    "servo-3": ("negative positive signal", "sockets", (8.0, 2.9), 2.54, True),
    "power-2": ("negative positive", "sockets", (7.6, 5.0), 0, False),
    "power-2-heavy": ("negative positive", "sockets", (16.0, 8.0), 0, False),
    "power-2-motor": ("negative positive", "sockets", (21.0, 10.5), 0, False),
    "motor-2": ("one other", "sockets", (6.5, 5.0), 0, False),
    "brake-2": ("feed return", "sockets", (5.6, 4.2), 2.54, True),
    "light-2": ("negative positive", "sockets", (5.5, 2.9), 2.54, True),
    "light-4": ("negative positive data clock", "sockets", (10.6, 2.9), 2.54, True),
    "bullet-2": ("one other", "pins", (6.5, 6.5), 0, False),
    "bullet-3": ("one other third", "pins", (6.5, 6.5), 0, False),
}
# What is soldered: pack plugs of over 20 A, and the bullets of motors.
SOLDERED = {"power-2-heavy", "power-2-motor", "bullet-2", "bullet-3"}
# Outlines of shells [mm]; all have their key up.
OUTLINES_MM = {
    "block-6": (20.0, 12.0),
    "block-8": (25.0, 12.0),
    "block-10": (30.0, 12.0),
    "block-14": (40.0, 12.0),
    "dsub-9": (16.9, 8.3),
    "dsub-15": (25.2, 8.3),
    "dsub-25": (38.9, 8.3),
}
LATCHED, SCREWED = {"block-8", "block-10", "block-14"}, {"dsub-9", "dsub-15", "dsub-25"}

# Contacts: working and brief current [A], resistance [mohm], strip [mm], gauges taken, largest insulation [mm].
CONTACTS: dict[str, tuple[float, float, float, float, str, float]] = {
    "servo-3": (3, 5, 10, 2.5, "28 22", 1.7),
    "power-2": (10, 15, 3, 3, "22 16", 2.4),
    "power-2-heavy": (30, 45, 1, 5, "16 12", 4.6),
    "power-2-motor": (60, 90, 0.5, 6, "12 8", 6.5),
    "motor-2": (5, 8, 5, 2.5, "26 20", 1.9),
    "brake-2": (3, 5, 8, 2.5, "28 22", 1.7),
    "light-2": (3, 4, 10, 2.5, "28 22", 1.7),
    "light-4": (3, 4, 10, 2.5, "28 22", 1.7),
    "bullet-2": (40, 60, 0.5, 6, "16 12", 5.0),
    "bullet-3": (60, 90, 0.5, 6, "14 10", 5.8),
    "block-6": (10, 15, 5, 4, "24 18", 2.2),
    "block-8": (10, 15, 5, 4, "24 18", 2.2),
    "block-10": (10, 15, 5, 4, "24 18", 2.2),
    "block-14": (10, 15, 5, 4, "24 18", 2.2),
    "dsub-9": (5, 7.5, 10, 4, "24 20", 1.8),
    "dsub-15": (5, 7.5, 10, 4, "24 20", 1.8),
    "dsub-25": (5, 7.5, 10, 4, "24 20", 1.8),
}

# Sleeves: least and most diameter [mm], shortening at either [%], what they stand [°C], mass [g/m].
SLEEVES: dict[str, tuple[float, float, int, int, int, float]] = {
    "braid-1": (0.7, 1.8, 2, 30, 125, 0.8),
    "braid-2": (1.2, 3.4, 2, 30, 125, 1.5),
    "braid-4": (3, 8, 2, 30, 125, 3),
    "braid-5": (3.8, 9, 2, 30, 125, 3.8),
    "braid-6": (4.5, 10, 2, 30, 125, 4.5),
    "braid-8": (6, 14, 2, 30, 125, 6),
    "braid-12": (9, 20, 2, 30, 125, 9),
    "braid-13": (9.8, 22, 2, 30, 125, 10),
    "braid-15": (11.3, 25, 2, 30, 125, 11),
    "braid-20": (15, 34, 2, 30, 125, 15),
    "heat-3": (1, 3.4, 0, 0, 260, 12),
    "heat-9": (2, 9, 0, 0, 260, 30),
    "heat-14": (5, 14, 0, 0, 260, 48),
    "heat-22": (8, 22, 0, 0, 260, 75),
    "heat-34": (20, 34, 0, 0, 260, 115),
    "wrap-3": (1.6, 10, 0, 0, 85, 5),
    "wrap-6": (5, 25, 0, 0, 85, 12),
    "wrap-10": (8, 40, 0, 0, 85, 25),
}

# What polyolefin tube stands [°C]: a shop's table for the thin-walled, common practice for the lined.
THIN_WALLED_LIMIT_C, LINED_LIMIT_C = 135, 110
# Tubes that are black: labels are not printed on them.
BLACK_TUBES = {"shrink-1.2", "shrink3-3.2", "shrink3-7.9"}
