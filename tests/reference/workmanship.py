"""Rules of harness work from an authority's circular."""

# Spare contacts by the contacts of a connector. FAA AC 43.13-1B 11-234, p. 11-98: two on 25 or less,
# four on 26 to 100, six on more.
SPARE_CONTACTS = {25: 2, 26: 4, 100: 4, 101: 6}

# How often a wire can be terminated anew. FAA AC 43.13-1B 11-118, p. 11-52.
RETERMINATIONS = 2

# Marks on a wire: none needed under this length, one about the middle up to the next, then at both ends and
# at most this far apart [in]. FAA AC 43.13-1B 11-208, p. 11-83, and figure 11-23, p. 11-84.
MARK_NONE_UNDER_IN = 3
MARK_ONE_UP_TO_IN = 7
MARK_FROM_END_IN = 3
MARK_APART_IN = 15

# Least bend radius as a multiple of the bundle's outside diameter, and two worked examples [in].
# US Army TM 1-1500-204-23-4 item 27; the examples are a home builders' article's.
BEND_RADIUS_DIAMETERS = 10
BEND_EXAMPLES_IN = ((0.5, 5), (1.0, 10))

# Crimp contacts pulled to destruction: least force [N] by gauge, "commercial" column. A published crimp
# specification; that it is the UL 486A series is from memory, and that its "military" column is MIL-T-7928's.
CRIMP_PULL_N = {
    28: 8.9,
    26: 13.4,
    24: 22.3,
    22: 35.6,
    20: 57.9,
    18: 89.0,
    16: 133.5,
    14: 222.5,
    12: 311.5,
    10: 356.0,
}
CRIMP_PULL_MILITARY_N = {
    26: 31.1,
    24: 44.5,
    22: 66.7,
    20: 84.5,
    18: 169.0,
    16: 222.5,
    14: 311.5,
    12: 489.3,
    10: 667.2,
}
