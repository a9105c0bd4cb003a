"""Read what pages are laid out on, `layouts/*.yaml`, and what a printer does to a page."""
