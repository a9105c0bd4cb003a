"""Take what lies in each run; return its bundle and sleeve, the tubes of labels, and what all of it weighs."""
