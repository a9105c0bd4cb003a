"""Take what lies in each run and find its bundle, sleeve, label tubes and mass."""
