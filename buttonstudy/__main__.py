"""Runs the command line as ``python -m buttonstudy``."""

from buttonstudy.cli import main

if __name__ == "__main__":
    main()
