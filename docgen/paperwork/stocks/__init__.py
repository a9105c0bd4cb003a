"""What labels are printed on: a module for each kind of stock, and how labels are fitted to it and laid out."""
