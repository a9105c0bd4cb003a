"""Take a harness; return what hangs on what: which functions stop when one thing is lost, and which go on."""
