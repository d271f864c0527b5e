#!/usr/bin/env python3
"""Reader and writer of the device protocol, version 1, after SPEC.md alone.

    by-the-page.py device < bytes     says of every line that a device sent what it is (host: of what a host sent)
    by-the-page.py close 'K,1,beat,'  gives a line its check
    by-the-page.py vectors FILE       reads vectors.txt, writes every frame of it anew, and counts

What it says of a line: `f`, letter and fields, ~ for an empty one; or `s`, the name of the stray and its bytes in hex.
"""
import re
import sys

TABLE = []
for n in range(256):
    for _ in range(8):
        n = n >> 1 ^ (0x82F63B78 if n & 1 else 0)
    TABLE.append(n)


def check(data):
    crc = 0xFFFFFFFF
    for byte in data:
        crc = crc >> 8 ^ TABLE[(crc ^ byte) & 255]
    return b'%08x' % (crc ^ 0xFFFFFFFF)


U16, U32, I32 = (0, 0xFFFF), (0, 0xFFFFFFFF), (-0x80000000, 0x7FFFFFFF)
INDEX, ID = (0, 6), re.compile(r'[A-Za-z0-9._-]{1,16}')


def words(text):
    return tuple(text.split())


class Maybe:
    def __init__(self, kind):
        self.kind = kind


PLACES = words('packer hose supply sleeve air pipe ground')
FIELDS = {
    'H': [(1, 0xFFFF), ID, ID, U32, U32, (1, 7), (1, 1000)],
    'C': [INDEX, words('press temp supply junct'), Maybe(PLACES),
          words('current ratio voltage digital tc-k tc-j tc-t tc-n tc-e'),
          Maybe(INDEX), (8, 32), I32, I32, I32, I32, I32, I32, (1, 0xFFFFFFFF)],
    'E': [U16, U32, words('boot button trip return fault hostlost hostback'), Maybe(INDEX), Maybe(I32)],
    'G': [U32, words('unarmed armed tripped silenced'), Maybe(INDEX), Maybe(I32), Maybe((1, 0xFFFF)), (0, 1)],
    'R': [U16, words('ok clamped refused range unknown busy'), Maybe(I32)],
}
VERBS = {'hello': [], 'start': [(1, 1000)], 'stop': [], 'beat': [], 'limit': [INDEX, I32, (1, 0xFFFF)],
         'read': [], 'disarm': [], 'silence': []}
LETTERS = {'device': 'HCSEGR', 'host': 'K'}


def is_kind(kind, text):
    if isinstance(kind, Maybe):
        return text == '' or is_kind(kind.kind, text)
    if kind is ID:
        return ID.fullmatch(text) is not None
    if isinstance(kind[0], str):
        return text in kind
    return re.fullmatch(r'0|-?[1-9][0-9]*', text) is not None and kind[0] <= int(text) <= kind[1]


def kinds_of(letter, fields):
    """The kind of each field, or None where there is no such line."""
    if letter == 'S':
        return [U32, U32] + [Maybe(I32)] * (len(fields) - 3) + [U16] if 4 <= len(fields) <= 10 else None
    if letter == 'K':
        if len(fields) < 2 or fields[1] not in VERBS:
            return None
        return [U16, (fields[1],)] + VERBS[fields[1]]
    return FIELDS[letter]


def keeps_rules(letter, f):
    if letter == 'C':
        lo, hi, el_lo, el_hi, start, end = map(int, f[6:12])
        return lo < hi and el_lo != el_hi and start < end and f[4] != f[0]
    if letter == 'G':
        unarmed = f[1] == 'unarmed'
        return all((f[i] == '') == unarmed for i in (2, 3, 4)) and not (unarmed and f[5] == '1')
    return True


def form(letter, fields):
    kinds = kinds_of(letter, fields)
    return (kinds is not None and len(kinds) == len(fields) and all(map(is_kind, kinds, fields))
            and keeps_rules(letter, fields))


def name(line, sender, first):
    """A line with its LF: its letter and fields, or the name of what it is instead."""
    printable = all(0x20 <= byte <= 0x7E for byte in line[:-1])
    lettered = len(line) > 2 and 0x41 <= line[0] <= 0x5A and line[1:2] == b','
    known = lettered and chr(line[0]) in LETTERS[sender]
    body = line[:-9]
    if len(line) > 9 and body.endswith(b',') and line[-9:-1] == check(body):
        if not (printable and lettered):
            return 'garbage'
        if not known:
            return 'unknown'
        letter, fields = chr(line[0]), body[2:-1].decode().split(',')
        return (letter, fields) if form(letter, fields) else 'form'
    if first:
        return 'partial'
    return 'crc' if printable and known else 'garbage'


def read(data, sender):
    """All that these bytes are, from opening to closing."""
    first, long = True, False
    while data:
        at = data.find(b'\n', 0, 128)
        if at < 0 and len(data) < 128:
            yield 'long' if long else 'partial', data
            return
        n = 128 if at < 0 else at + 1
        line, data = data[:n], data[n:]
        if at < 0 or long:
            yield 'long', line
        else:
            yield name(line, sender, first), line
        long, first = at < 0, False


def said(what, line):
    if isinstance(what, str):
        return 's %s %s' % (what, line.hex())
    return ' '.join(['f', what[0]] + [field or '~' for field in what[1]])


def write(letter, fields):
    body = ','.join([letter] + fields + ['']).encode()
    return body + check(body) + b'\n'


def vectors(path):
    passed = failed = 0
    for vector in re.split(r'^(?=v )', open(path).read(), flags=re.M)[1:]:
        head, given, *expected = vector.splitlines()
        data = b'' if given == 'x -' else bytes.fromhex(given[2:])
        found = list(read(data, head.split()[1]))
        again = b''.join(line if isinstance(what, str) else write(*what) for what, line in found)
        if [said(*f) for f in found] == expected and again == data:
            passed += 1
        else:
            failed += 1
            print('FAILED', head)
    print('%d passed, %d failed' % (passed, failed))
    return failed > 0 or passed == 0


if __name__ == '__main__':
    if len(sys.argv) == 3 and sys.argv[1] == 'vectors':
        sys.exit(vectors(sys.argv[2]))
    if len(sys.argv) == 3 and sys.argv[1] == 'close':
        print(sys.argv[2] + check(sys.argv[2].encode()).decode())
    elif len(sys.argv) == 2 and sys.argv[1] in LETTERS:
        for found in read(sys.stdin.buffer.read(), sys.argv[1]):
            print(said(*found))
    else:
        sys.exit(__doc__)
