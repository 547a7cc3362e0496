"""Sentences and reading tables made from the estimates, never from anything else."""
