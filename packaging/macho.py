"""Looks at the macOS archive without running it: macho.py ARCHIVE.tar.gz. Prints a line for each thing looked at; the exit code is 1 where one is wrong.

Sources: Mach-O, mach-o/loader.h and mach-o/fat.h; the signature, cs_blobs.h of XNU; the bundle behind the program, the runtime's design
document "single-file/bundler". A Mac with an arm64 processor runs nothing without a signature whose hashes fit; one made "ad hoc" will do.
"""

import hashlib
import io
import os
import struct
import sys
import tarfile

PROCESSORS = {0x0100000C: "arm64", 0x01000007: "x86_64"}
KINDS = {2: "program", 6: "library"}
SEGMENT, LOAD_DYLIB, WEAK_DYLIB, REEXPORT, RPATH, SIGNATURE, MIN_MACOS, BUILD = 0x19, 0xC, 0x80000018, 0x8000001F, 0x8000001C, 0x1D, 0x24, 0x32
ADHOC, LINKER_SIGNED, CERTIFICATES = 0x2, 0x20000, 0x10000
BUNDLE = hashlib.sha256(b".net core bundle\n").digest()
NEWEST_SYSTEM = (14, 0)   # the runtime's own least macOS (from memory: .NET 10 supports 14 and later)

failures = 0


def told(fine, sentence):
    global failures
    failures += not fine
    print(("ok      " if fine else "FAILED  ") + sentence)


def version(packed):
    return (packed >> 16, packed >> 8 & 0xFF)


def slices(data):
    """The images in a file: one, or one for each processor (offset, image)."""
    if data[:4] == b"\xca\xfe\xba\xbe":
        count, = struct.unpack_from(">I", data, 4)
        for k in range(count):
            _, _, offset, size, _ = struct.unpack_from(">5I", data, 8 + 20 * k)
            yield data[offset:offset + size]
    else:
        yield data


def commands(image):
    """Head and load commands of an image."""
    magic, cpu, _, kind, count, _, _, _ = struct.unpack_from("<8I", image)
    if magic != 0xFEEDFACF:
        raise ValueError("no 64-bit Mach-O")
    at, found = 32, []
    for _ in range(count):
        what, size = struct.unpack_from("<2I", image, at)
        found.append((what, image[at:at + size]))
        at += size
    return PROCESSORS.get(cpu, hex(cpu)), KINDS.get(kind, str(kind)), found


def signature(blob, image):
    """What a signature says of its image: a sentence, and whether its hashes fit."""
    magic, _, count = struct.unpack_from(">3I", blob)
    if magic != 0xFADE0CC0:
        return False, "the signature is none"
    said, fits, directories = [], True, 0
    index = [struct.unpack_from(">2I", blob, 12 + 8 * k) for k in range(count)]
    certified = any(what == CERTIFICATES and struct.unpack_from(">I", blob, offset + 4)[0] > 8 for what, offset in index)
    for _, offset in index:
        if struct.unpack_from(">I", blob, offset)[0] != 0xFADE0C02:
            continue
        directories += 1
        _, length, _, flags, hashes, name, _, slots, limit, size, kind, _, page = struct.unpack_from(">9I4B", blob, offset)
        algorithm = {1: hashlib.sha1, 2: hashlib.sha256}.get(kind)
        if algorithm is None or page == 0:
            return False, f"hashes of kind {kind} with pages of 2^{page} bytes are not known here"
        pages = (limit + (1 << page) - 1) >> page
        wrong = sum(
            algorithm(image[k << page:min((k + 1) << page, limit)]).digest()[:size] != blob[offset + hashes + k * size:offset + hashes + (k + 1) * size]
            for k in range(slots))
        fits &= wrong == 0 and slots == pages
        how = "with a certificate" if certified else "by the linker" if flags & LINKER_SIGNED else "ad hoc" if flags & ADHOC else "by nobody"
        ident = blob[offset + name:blob.index(b"\0", offset + name)].decode()
        said.append(f"{algorithm().name} of {slots} pages of {1 << page} bytes, {wrong} wrong, signed {how} as {ident}, covers {limit} bytes")
    return fits and directories > 0, "; ".join(said)


def look(name, data, wanted):
    """One Mach-O file of the archive."""
    seen = []
    for image in slices(data):
        processor, kind, found = commands(image)
        seen.append(processor)
        if processor != wanted:
            continue
        told(kind == ("library" if name.endswith(".dylib") else "program"), f"{name}: {kind} for {processor}")
        least = [version(struct.unpack_from("<I", body, 8 if what == MIN_MACOS else 12)[0]) for what, body in found if what in (MIN_MACOS, BUILD)]
        told(len(least) == 1 and least[0] <= NEWEST_SYSTEM, f"{name}: from macOS {'.'.join(map(str, least[0])) if least else 'unknown'} on")
        loads = [body[struct.unpack_from("<I", body, 8)[0]:].split(b"\0")[0].decode() for what, body in found if what in (LOAD_DYLIB, WEAK_DYLIB, REEXPORT)]
        others = [one for one in loads if not one.startswith(("/usr/lib/", "/System/Library/"))]
        own = {f"@rpath/{name}", f"@rpath/{os.path.splitext(name)[0]}"}
        told(not set(others) - own, f"{name}: loads {len(loads)} libraries, all of the system" if not others else f"{name}: loads {', '.join(others)}")
        signed = [struct.unpack_from("<2I", body, 8) for what, body in found if what == SIGNATURE]
        if signed:
            offset, size = signed[0]
            fine, sentence = signature(image[offset:offset + size], image)
            told(fine and offset + size == len(image), f"{name}: {sentence}" + ("" if offset + size == len(image) else f"; {len(image) - offset - size} bytes stand behind it"))
        else:
            told(processor != "arm64", f"{name}: not signed" + (", which an arm64 Mac refuses" if processor == "arm64" else ", which is allowed on x86_64"))
        if kind == "program":
            segments = [struct.unpack_from("<16s4Q", body, 8) for what, body in found if what == SEGMENT]
            last = max(offset + size for _, _, _, offset, size in segments)
            told(last == len(image), f"{name}: the last segment ends where the file ends" if last == len(image) else f"{name}: {len(image) - last} bytes behind the last segment")
    told(wanted in seen, f"{name}: holds {', '.join(seen)}")


def bundle(name, data):
    """The files that are bundled behind a program of the runtime."""
    at = data.find(BUNDLE)
    told(at >= 8, f"{name}: the mark of a bundle is there")
    if at < 8:
        return
    offset, = struct.unpack_from("<Q", data, at - 8)
    if not 0 < offset < len(data) - 12:
        told(False, f"{name}: the mark points to {offset}, where no bundle can be")
        return
    major, minor, count = struct.unpack_from("<3I", data, offset)
    told(0 < count < 1000, f"{name}: a bundle of {count} files, form {major}.{minor}")


def main(path):
    wanted = "arm64" if "osx-arm64" in os.path.basename(path) else "x86_64"
    root = os.path.basename(path).removesuffix(".tar.gz")
    with tarfile.open(path) as archive:
        members = archive.getmembers()
        strange = [one.name for one in members if one.name.split("/")[0] != root or ".." in one.name.split("/") or not (one.isfile() or one.isdir()) or one.uid or one.gid]
        told(not strange, f"{len(members)} members, all plain files and folders of root under {root}" if not strange else f"members that do not belong there: {strange[:3]}")
        open_to_write = [one.name for one in members if one.mode & 0o022]
        told(not open_to_write, "nobody but the owner may write" if not open_to_write else f"others may write {open_to_write[:3]}")
        runnable = sorted(one.name for one in members if one.isfile() and one.mode & 0o100)
        told(runnable == [f"{root}/cockpit"], f"may be run: {', '.join(runnable)}")
        names = {one.name.removeprefix(root + "/") for one in members}
        missing = {"LICENSE", "NOTICES", "README.txt", "themes/dusk.json", "sessions/sample-good-pass/session.jsonl.br"} - names
        told(not missing, "licence, notices, README, themes and sessions are there" if not missing else f"missing: {', '.join(sorted(missing))}")
        for one in members:
            short = one.name.removeprefix(root + "/")
            if one.isfile() and (short == "cockpit" or short.endswith(".dylib")):
                data = archive.extractfile(one).read()
                look(short, data, wanted)
                if short == "cockpit":
                    bundle(short, data)
    print("not run: there is no macOS here")
    return 1 if failures else 0


if __name__ == "__main__":
    if len(sys.argv) != 2:
        sys.exit("macho.py ARCHIVE.tar.gz")
    sys.stdout = io.TextIOWrapper(sys.stdout.buffer, "utf-8", line_buffering=True)
    sys.exit(main(sys.argv[1]))
