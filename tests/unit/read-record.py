"""An independent reader of a run's pages, written from docs/record.md alone.

usage: read-record.py PAGES     prints JSON: pages, samples, entries, events, chain head, and the device's bytes (SHA-256)
"""
import hashlib
import json
import struct
import sys


def crc32c(data):
    crc = 0xFFFFFFFF
    for byte in data:
        crc ^= byte
        for _ in range(8):
            crc = (crc >> 1) ^ (0x82F63B78 if crc & 1 else 0)
    return crc ^ 0xFFFFFFFF


def column(page, at, n, code):
    return struct.unpack_from("<%d%s" % (n, code), page, at), at + n * struct.calcsize("<" + code)


def line_of(seq, tick, counts, status):
    text = "S,%d,%d,%s,%d," % (seq, tick, ",".join("" if c is None else str(c) for c in counts), status)
    return ("%s%08x\n" % (text, crc32c(text.encode()))).encode()


data = open(sys.argv[1], "rb").read()
at, index, before, last_us = 0, 0, bytes(32), 0
out = {"pages": 0, "samples": 0, "entries": [], "events": []}
device = hashlib.sha256()
while at < len(data):
    magic, form, header, length, number, flags, channels, id_bytes = struct.unpack_from("<8sHHIIHBB", data, at)
    first_us, page_last_us, utc = struct.unpack_from("<QQQ", data, at + 24)
    n, lines, line_bytes, events, event_bytes, head_bytes, columns, zero = struct.unpack_from("<8I", data, at + 48)
    page = data[at : at + length]
    assert magic == b"Sbarpage" and form == 1 and number == index and zero == 0 and columns == 5 + channels
    assert struct.unpack("<I", page[-4:])[0] == crc32c(page[:-4]), "CRC of page %d" % index
    assert page[80:112] == before, "chain at page %d" % index
    run = page[112 + 4 * columns : 112 + 4 * columns + id_bytes].decode()
    p = header
    dt, p = column(page, p, n, "I")
    seq, p = column(page, p, n, "I")
    tick, p = column(page, p, n, "I")
    raw = []
    for _ in range(channels):
        c, p = column(page, p, n, "i")
        raw.append(c)
    status, p = column(page, p, n, "H")
    nulls, p = column(page, p, n, "B")
    texts = page[p : p + line_bytes].decode().splitlines()
    p += line_bytes
    said = page[p : p + event_bytes].decode().splitlines()
    p += event_bytes
    if flags & 1:
        out["head"] = json.loads(page[p : p + head_bytes])
        assert out["head"]["runId"] == run
    assert len(texts) == lines and len(said) == events
    placed = [json.loads(t) for t in texts]
    k = 0
    for i in range(n + 1):
        while k < len(placed) and placed[k][0] == i:
            entry = placed[k]
            k += 1
            out["entries"].append(entry[1:3])
            assert entry[1] >= last_us
            last_us = entry[1]
            if entry[2] == "frame":
                device.update(entry[3].encode() + b"\n")
            elif entry[2] == "stray":
                device.update(bytes.fromhex(entry[4]))
        if i < n:
            t = first_us + dt[i]
            assert last_us <= t <= page_last_us
            last_us = t
            counts = [None if nulls[i] >> c & 1 else raw[c][i] for c in range(channels)]
            device.update(line_of(seq[i], tick[i], counts, status[i]))
    assert k == len(placed)
    out["events"] += [json.loads(s) for s in said]
    out["samples"] += n
    before = hashlib.sha256(page).digest()
    out["end"] = None if not flags & 2 else "interrupted" if flags & 4 else "ended"
    at += length
    index += 1
out["pages"] = index
out["chainHead"] = before.hex()
out["device"] = device.hexdigest()
json.dump(out, sys.stdout)
