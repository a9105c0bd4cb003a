"""How much longer a wire is than the pair that it is twisted into, from worked examples."""

from typing import NamedTuple


class TwistExample(NamedTuple):
    """A pair: diameter of the circle through the wires' centres and pitch in one unit, and the factor."""

    centres_circle: float
    pitch: float
    factor: float
    tolerance: float


# A helix unrolled: radius 0.020 in, height 1 in, printed 1.0079 (exactly 1.00786); 100 ft become 100.79 ft.
# A worked example of the unrolled cylinder, found printed.
PRINTED = TwistExample(0.040, 1.0, 1.0079, 1e-4)
PRINTED_HUNDRED_FEET_FT = 100.79

# Pairs with the same formula by hand, in mm: the wires of a tight pair lie one wire's diameter apart.
# sqrt(1 + (π·1.4/30.48)²) = sqrt(1 + 0.14430²) = 1.0104, ten turns a foot; the others likewise.
BY_HAND = (
    TwistExample(1.4, 30.48, 1.0104, 2e-4),
    TwistExample(1.3, 25.0, 1.01326, 1e-5),
    TwistExample(1.3, 20.0, 1.02064, 1e-5),
    TwistExample(1.0, 12.0, 1.03370, 1e-5),
    TwistExample(2.0, 30.0, 1.02170, 1e-5),
)

# 1500 mm of a pair of 1.3 mm wires at 25 mm pitch: 1500 × 1.01326 mm of each wire.
PAIR_1500_MM = 1519.9
