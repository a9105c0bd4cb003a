"""Take a checked definition and return the harness as built, with everything that documents show of it.

The rooms, in the order in which `resolve.py` goes through them: `routing` (runs, routes, segments), `wiring` (plans,
contacts, circuits, joints, equipment, feeds), `bundling` (bundles, sleeves, masses), `electrical` (currents and volts),
`remedies`, `checks`. From the harness as built documents ask `assembly` (cutting, spools, order of work) and
`continuity` (what rings out). `model` holds the values that all of them pass on.
"""
