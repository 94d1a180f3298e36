"""Reads one delimited log with pandas' C reader; prints the seconds of the reading alone.
Usage: pandasRead.py LOG default|round_trip"""
import sys
import time

import pandas

precision = None if sys.argv[2] == "default" else sys.argv[2]
started = time.perf_counter()
table = pandas.read_csv(sys.argv[1], engine="c", float_precision=precision)
print(time.perf_counter() - started, table.shape[0], table.memory_usage(index=False).sum())
