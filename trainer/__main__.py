"""Run the command line with `python -m trainer`."""

from trainer.cli import main

main()
