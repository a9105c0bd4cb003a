"""Tell what is cut from which spool, spliced, and done in which order."""
