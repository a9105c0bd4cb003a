"""Everything that a harness is held to, one file for each kind of limit; each returns findings."""
