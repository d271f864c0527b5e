"""
Two boards that print, for the tests: each a pseudo-terminal that Chromium takes for a serial adapter (modbus-slave.py). The first
prints a pressure and a temperature in columns, the second a temperature by its name, ten lines a second.

  line-sketches.py --serial SERIAL --second SERIAL --tap FILE

Operations, one a line, each answered with one line:

  plug N, unplug N  board 1 or 2 comes and goes
  bar X, celsius X  what the first prints
  warm X            what the second prints
  columns N         the first prints so many columns: 2, or 3 with a counter before them
"""

import argparse
import importlib.util
import os
import pathlib
import select
import sys
import time

spec = importlib.util.spec_from_file_location("bus", pathlib.Path(__file__).with_name("modbus-slave.py"))
bus = importlib.util.module_from_spec(spec)
spec.loader.exec_module(bus)

EVERY_S = 0.1


def main():
    options = argparse.ArgumentParser()
    options.add_argument("--serial", required=True)
    options.add_argument("--second", required=True)
    options.add_argument("--tap", required=True)
    given = options.parse_args()
    boards = [bus.Adapter(given.serial, given.tap), bus.Adapter(given.second, given.tap + "2", 1)]
    says = {"bar": 0.0, "celsius": 20.0, "warm": 20.0, "columns": 2.0}
    typed, lines, due = b"", 0, time.monotonic()
    while True:
        ready, _, _ = select.select([sys.stdin.fileno()], [], [], max(0, due - time.monotonic()))
        if ready:
            more = os.read(sys.stdin.fileno(), 4096)
            if not more:
                return
            typed += more
            while b"\n" in typed:
                line, _, typed = typed.partition(b"\n")
                word, _, rest = line.decode().strip().partition(" ")
                if word == "plug":
                    boards[int(rest) - 1].plug()
                elif word == "unplug":
                    boards[int(rest) - 1].unplug()
                else:
                    says[word] = float(rest)
                print("ok", flush=True)
        if time.monotonic() < due:
            continue
        due += EVERY_S
        lines += 1
        counter = f"{lines}," if says["columns"] == 3 else ""
        for board in boards:
            board.read()
        boards[0].write(f"{counter}{says['bar']:.3f},{says['celsius']:.1f}\r\n".encode())
        boards[1].write(f"t = {says['warm']:.2f} C\n".encode())


if __name__ == "__main__":
    main()
