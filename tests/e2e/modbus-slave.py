"""
Units of a Modbus RTU bus on a pseudo-terminal, for the tests: written by the standard alone, in another language than the
master. Chromium takes the pty for a serial device by a hand-made udev message (root, in a network namespace of its own).

  modbus-slave.py --serial SERIAL --tap FILE [--paced]

With --paced an answer takes its time: request and answer eleven bits a character at the speed that the browser set on the
pty, 3 ms for the unit in between. Without, it comes at once.

Operations, one a line, each answered with one line:

  plug, unplug      the adapter comes and goes
  bar X             pressure of unit 1: a float in holding registers 0 and 1, with its status in register 2
  celsius X         temperature of unit 2: whole tenths in input register 10
  garble N          so many answers are disturbed
  say TEXT          a plain line of text, ended by CR LF
  state             bar=… asked=N at=…, the time of this computer in ms since 1970

Every byte that is sent is written to the tap, too.
"""

import argparse
import os
import select
import socket
import struct
import sys
import termios
import time
import tty

REQUEST = 8
CHARACTER_BITS = 11
UNIT_S = 0.003
SPEEDS = {getattr(termios, f"B{n}"): n for n in (9600, 19200, 38400, 57600, 115200)}
NETLINK_KOBJECT_UEVENT = 15
UDEV_GROUP = 2


def check(data):
    """CRC-16 of the bus as its two bytes on the line, low byte first."""
    c = 0xFFFF
    for b in data:
        c ^= b
        for _ in range(8):
            c = (c >> 1) ^ 0xA001 if c & 1 else c >> 1
    return struct.pack("<H", c)


class Units:
    def __init__(self):
        self.bar = 0.0
        self.celsius = 20.0
        self.garble = 0
        self.asked = 0

    def registers(self, unit, function):
        if (unit, function) == (1, 3):
            high, low = struct.unpack(">HH", struct.pack(">f", self.bar))
            return {0: high, 1: low, 2: 0}
        if (unit, function) == (2, 4):
            return {10: round(self.celsius * 10) & 0xFFFF}
        return {}

    def answer(self, request):
        """The answer to eight bytes; none where they are no request to a unit that is there."""
        unit, function, first, count = struct.unpack(">BBHH", request[:6])
        if check(request[:6]) != request[6:] or unit not in (1, 2):
            return b""
        self.asked += 1
        there = self.registers(unit, function)
        wanted = range(first, first + count)
        if all(r in there for r in wanted):
            body = bytes([unit, function, 2 * count]) + b"".join(struct.pack(">H", there[r]) for r in wanted)
        else:
            body = bytes([unit, function | 0x80, 2])
        frame = body + check(body)
        if self.garble > 0:
            self.garble -= 1
            frame = bytes(b ^ 0x55 if i % 3 == 1 else b for i, b in enumerate(frame))
        return frame


def murmur2(data):
    """The hash by which listeners of the udev group filter for a subsystem (MurmurHash2, seed 0)."""
    m, mask = 0x5BD1E995, 0xFFFFFFFF
    h = len(data)
    whole = len(data) // 4 * 4
    for i in range(0, whole, 4):
        k = struct.unpack_from("<I", data, i)[0] * m & mask
        h = (h * m & mask) ^ ((k ^ (k >> 24)) * m & mask)
    for j, b in enumerate(data[whole:]):
        h ^= b << 8 * j
    if whole < len(data):
        h = h * m & mask
    h = (h ^ (h >> 13)) * m & mask
    return h ^ (h >> 15)


class Adapter:
    """A pty that comes and goes as a USB adapter does."""

    def __init__(self, serial, tap, number=0):
        self.serial = serial
        self.number = number
        self.tap = open(tap, "wb", buffering=0)
        self.master = None
        self.node = ""
        self.messages = 0

    def tell(self, action):
        self.messages += 1
        name = f"ttyBUS{self.number}"
        properties = {
            "ACTION": action,
            "SUBSYSTEM": "tty",
            "SEQNUM": 1000 + self.messages,
            "USEC_INITIALIZED": 1,
            "DEVPATH": f"/devices/emu/usb1/1-{self.number + 1}/1-{self.number + 1}:1.0/{name}/tty/{name}",
            "DEVNAME": self.node,
            "MAJOR": 4,
            # The one minor that the kernel's table of serial drivers has here.
            "MINOR": 64,
            "ID_BUS": "usb",
            "ID_VENDOR_ID": "1209",
            "ID_MODEL_ID": f"{self.number + 1:04x}",
            "ID_MODEL_ENC": "Emulated\\x20board",
            "ID_SERIAL_SHORT": self.serial,
        }
        body = b"".join(f"{k}={v}\0".encode() for k, v in properties.items())
        head = b"libudev\0" + struct.pack(">I", 0xFEEDCAFE) + struct.pack("=III", 40, 40, len(body))
        head += struct.pack(">IIII", murmur2(b"tty"), 0, 0, 0)
        with socket.socket(socket.AF_NETLINK, socket.SOCK_RAW, NETLINK_KOBJECT_UEVENT) as s:
            s.bind((0, 0))
            s.sendto(head + body, (0, UDEV_GROUP))

    def plug(self):
        self.master, slave = os.openpty()
        tty.setraw(slave)
        self.node = os.ttyname(slave)
        os.chmod(self.node, 0o666)
        os.close(slave)
        os.set_blocking(self.master, False)
        self.tell("add")

    def unplug(self):
        os.close(self.master)
        self.master = None
        self.tell("remove")

    def baud(self):
        """What the browser set; None: nothing that a bus runs at."""
        return SPEEDS.get(termios.tcgetattr(self.master)[5]) if self.master is not None else None

    def read(self):
        try:
            return os.read(self.master, 4096) if self.master is not None else b""
        except OSError:
            return b""  # nobody has it open, or nothing came

    def write(self, data):
        if self.master is None or not data:
            return
        try:
            os.write(self.master, data)
            self.tap.write(data)
        except OSError:
            pass  # nobody has it open: lost, as on a real line


def carry_out(line, adapter, units):
    word, _, rest = line.partition(" ")
    if word == "plug":
        adapter.plug()
    elif word == "unplug":
        adapter.unplug()
    elif word == "bar":
        units.bar = float(rest)
    elif word == "celsius":
        units.celsius = float(rest)
    elif word == "garble":
        units.garble = int(rest)
    elif word == "say":
        adapter.write(rest.encode() + b"\r\n")
    elif word != "state":
        return f"error {word}"
    return f"ok bar={units.bar} asked={units.asked} at={time.time() * 1000:.3f}"


def main():
    options = argparse.ArgumentParser()
    options.add_argument("--serial", required=True)
    options.add_argument("--tap", required=True)
    options.add_argument("--paced", action="store_true")
    given = options.parse_args()
    adapter, units = Adapter(given.serial, given.tap), Units()
    heard, typed = b"", b""
    # What is due when, in the order of time: a unit answers, its answer has gone over the line.
    due = []

    def in_time(now):
        while due and due[0][0] <= now:
            at, what, data, baud = due.pop(0)
            if what == "line":
                adapter.write(data)
            else:
                # The registers as they stand when the unit answers.
                answer = units.answer(data)
                due.append((at + len(answer) * CHARACTER_BITS / baud, "line", answer, baud))
                due.sort()

    while True:
        watched = [sys.stdin.fileno()] + ([adapter.master] if adapter.master is not None else [])
        wait = max(0, due[0][0] - time.monotonic()) if due else 0.5
        ready, _, _ = select.select(watched, [], [], wait)
        in_time(time.monotonic())
        if sys.stdin.fileno() in ready:
            more = os.read(sys.stdin.fileno(), 4096)
            if not more:
                return
            typed += more
            while b"\n" in typed:
                line, _, typed = typed.partition(b"\n")
                print(carry_out(line.decode().strip(), adapter, units), flush=True)
        came = adapter.read()
        if came:
            heard += came
        elif adapter.master in ready:
            select.select([sys.stdin.fileno()], [], [], 0.002)  # a closed port is always ready: do not spin
        while len(heard) >= REQUEST:
            baud = adapter.baud() if given.paced else None
            if baud is not None and heard[6:REQUEST] == check(heard[:6]):
                due.append((time.monotonic() + REQUEST * CHARACTER_BITS / baud + UNIT_S, "unit", heard[:REQUEST], baud))
                due.sort()
                heard = heard[REQUEST:]
                continue
            answer = units.answer(heard[:REQUEST])
            # Bytes that are no request are dropped one by one until one begins.
            heard = heard[REQUEST:] if answer else heard[1:]
            adapter.write(answer)


if __name__ == "__main__":
    main()
