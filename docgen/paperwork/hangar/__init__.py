"""The hangar card and its plan."""
