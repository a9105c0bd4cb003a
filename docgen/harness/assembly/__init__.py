"""Take a harness as built; return what is cut from which spool, spliced, and made in which order."""
