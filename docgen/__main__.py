"""Run the command line with `python -m docgen`."""

from docgen.cli import main

if __name__ == "__main__":
    main()
