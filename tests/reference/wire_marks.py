"""The scheme for wire marks that is taught for aircraft wiring."""

# The order within a mark: circuit function letter, wire number, segment letter, size, N for a wire to
# negative. US Navy Electricity and Electronics Training Series, module 4 (NAVEDTRA 14176), example P 215 A 4
# N.
EXAMPLE_PARTS = {"function": "P", "number": 215, "segment": "A", "size": "4", "negative": "N"}
EXAMPLE = "P215A4N"

# The same order without a negative. FAA AC 43.13-1B figure 11-23, p. 11-84.
SECOND_EXAMPLE_PARTS = {"function": "H", "number": 215, "segment": "A", "size": "20"}
SECOND_EXAMPLE = "H215A20"

# Function letters. MIL-W-5088L and NAVEDTRA 14329: L lighting, P direct-current power.
LETTERS = {"light": "L", "power": "P"}
# From memory only: C control surface, G landing gear, K engine control, R radio.
LETTERS_FROM_MEMORY = {"control surface": "C", "landing gear": "G", "engine control": "K", "radio": "R"}

# Letters that segments leave out, because they look like figures. From memory of the same scheme.
LETTERS_LEFT_OUT = ("I", "O")
