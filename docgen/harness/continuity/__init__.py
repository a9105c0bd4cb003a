"""Take a harness; return what rings out to what, with how many millivolts, and what must not be connected."""
