# Copyright 2026 The Poise founders. Licence: Apache-2.0.
"""Writes the files of a built page as C++: a table for serve/page.hpp, each file compressed.

    embed_page.py FOLDER page.cpp

The same files give the same text: they are sorted, and nothing in it tells of the hour or the machine.
"""
import gzip
import hashlib
import sys
from pathlib import Path

TYPES = {
    ".html": "text/html; charset=utf-8",
    ".js": "text/javascript; charset=utf-8",
    ".css": "text/css; charset=utf-8",
    ".svg": "image/svg+xml",
    ".png": "image/png",
    ".ico": "image/x-icon",
    ".json": "application/json",
    ".woff2": "font/woff2",
}
BYTES_A_LINE = 32


def literal(data):
    """Lines of a C++ string literal; octal escapes end after three digits whatever follows."""
    for start in range(0, len(data), BYTES_A_LINE):
        yield '    "' + "".join(f"\\{byte:03o}" for byte in data[start:start + BYTES_A_LINE]) + '"'


def page_file(folder, path):
    """Name, media type, compressed bytes and mark of the content."""
    kind = TYPES.get(path.suffix)
    if kind is None:
        sys.exit(f"{path}: add the media type of {path.suffix or 'such files'} to {__file__}")
    data = gzip.compress(path.read_bytes(), compresslevel=9, mtime=0)
    return path.relative_to(folder).as_posix(), kind, data, hashlib.sha256(data).hexdigest()[:32]


def table(files):
    yield "// Written by tools/embed_page.py from web/; do not edit."
    yield '#include "serve/page.hpp"'
    yield "#include <array>"
    yield "namespace poise::serve {"
    yield "namespace {"
    for number, (_, _, data, _) in enumerate(files):
        yield f"constexpr char file_{number}[] ="
        yield from literal(data)
        yield "    ;"
    yield f"constexpr std::array<PageFile, {len(files)}> files{{{{"
    for number, (name, kind, data, mark) in enumerate(files):
        yield f'    {{"{name}", "{kind}", {{file_{number}, {len(data)}}}, "\\"{mark}\\""}},'
    yield "}};"
    yield "}  // namespace"
    yield "std::span<const PageFile> page_files() { return files; }"
    yield "}  // namespace poise::serve"


def main():
    folder, target = Path(sys.argv[1]), Path(sys.argv[2])
    files = [page_file(folder, path) for path in sorted(folder.rglob("*")) if path.is_file()]
    if not any(name == "index.html" for name, _, _, _ in files):
        sys.exit(f"{folder}: there is no index.html; did the page's build end well?")
    target.write_text("\n".join(table(files)) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
