"""All ratios of the kit's speed in one run: reading and start-up, then the report.

    python tests/benchmark.py --repeats 5

`benchmark_reading.py` and `benchmark_report.py` say what is measured, and do more by themselves.
"""


def main() -> None:
    """Print both, one after the other."""
    import benchmark_reading
    import benchmark_report

    benchmark_reading.main()
    print()
    benchmark_report.main()


if __name__ == "__main__":
    main()
