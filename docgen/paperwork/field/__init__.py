"""What goes with the aircraft to the field: first power-up, hangar card, fault finder."""
