"""Take the harness as built and find currents, drops and volts in every case."""
