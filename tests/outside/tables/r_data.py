"""Reads a data frame from a file that R saved (.rda), as far as plain tables need it.

The format is described in "R Internals", section 1.8, Serialization Formats: XDR, version 2 or 3. Nothing in it is run."""
import bz2
import gzip
import lzma
import struct

NILVALUE, SYMBOL, PAIRLIST, CHARACTERS, LOGICAL, INTEGER, REAL, STRINGS, LIST = 254, 1, 2, 9, 10, 13, 14, 16, 19
REFERENCE = 255
MISSING = -(2**31)


class Reader:
    def __init__(self, data):
        self.data, self.at, self.symbols = data, 0, []

    def take(self, size):
        self.at += size
        return self.data[self.at - size : self.at]

    def integers(self, count):
        return struct.unpack(f">{count}i", self.take(4 * count))

    def integer(self):
        return self.integers(1)[0]

    def header(self):
        if self.take(2) != b"X\n":
            raise ValueError("not in XDR")
        version, _, _ = self.integers(3)
        if version == 3:
            self.take(self.integer())  # the encoding's name
        elif version != 2:
            raise ValueError(f"version {version}")

    def item(self):
        """A value as Python has it; with attributes: (value, attributes)."""
        flags = self.integer()
        kind, has_attributes, has_tag = flags & 255, flags & 512, flags & 1024
        if kind == NILVALUE:
            return None
        if kind == REFERENCE:
            return self.symbols[(flags >> 8) - 1]
        if kind == SYMBOL:
            self.symbols.append(self.item())
            return self.symbols[-1]
        if kind == CHARACTERS:
            length = self.integer()
            return None if length == -1 else self.take(length).decode()
        if kind == PAIRLIST:
            pairs = {}
            while kind == PAIRLIST:
                if flags & 512:
                    self.item()
                tag = self.item() if has_tag else len(pairs)
                pairs[tag] = self.item()
                flags = self.integer()
                kind, has_tag = flags & 255, flags & 1024
            return pairs
        length = self.integer()
        if kind in (LOGICAL, INTEGER):
            value = [None if number == MISSING else number for number in self.integers(length)]
        elif kind == REAL:
            value = list(struct.unpack(f">{length}d", self.take(8 * length)))
        elif kind in (STRINGS, LIST):
            value = [self.item() for _ in range(length)]
        else:
            raise ValueError(f"a value of kind {kind}")
        return (value, self.item()) if has_attributes else value


def read_frame(path, name):
    """(names of the rows, {name of a column: its values}); words for factors, None for what is missing."""
    data = path.read_bytes()
    for unpack in (lzma.decompress, gzip.decompress, bz2.decompress):
        try:
            data = unpack(data)
            break
        except (OSError, lzma.LZMAError, EOFError):
            pass
    if data[:4] not in (b"RDX2", b"RDX3"):
        raise ValueError(f"{path} is no file of R")
    reader = Reader(data[5:])
    reader.header()
    columns, attributes = reader.item()[name]
    rows = attributes["row.names"]
    frame = {}
    for title, column in zip(attributes["names"], columns):
        values, more = column if isinstance(column, tuple) else (column, {})
        levels = more.get("levels")
        frame[title] = values if levels is None else [None if code is None else levels[code - 1] for code in values]
    return rows if isinstance(rows[0], str) else [str(i + 1) for i in range(len(next(iter(frame.values()))))], frame
