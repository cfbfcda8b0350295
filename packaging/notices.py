"""What others made, for one archive: the project's own NOTICES, then each package with its licence, from the packages' own data.

Usage: notices.py SOURCE SYSTEM. Reads SOURCE/src/Cockpit/packages.lock.json and the package cache (NUGET_PACKAGES, else ~/.nuget/packages).
"""

import json
import os
import pathlib
import sys
import xml.etree.ElementTree as ET

WIDTH = 100


def folder_of(cache: pathlib.Path, name: str, version: str) -> pathlib.Path:
    return cache / name.lower() / version.lower()


def nuspec(folder: pathlib.Path, name: str) -> dict:
    path = folder / f"{name.lower()}.nuspec"
    if not path.exists():
        return {}
    data = {}
    for element in ET.parse(path).getroot().iter():
        tag = element.tag.split("}")[-1]
        if tag in ("license", "licenseUrl", "copyright", "authors", "projectUrl") and element.text:
            data[tag] = element.text.strip()
            if tag == "license":
                data["kind"] = element.get("type", "")
    return data


def text_of(folder: pathlib.Path, about: dict) -> str:
    """The licence's own words where the package brings them."""
    wanted = [about["license"]] if about.get("kind") == "file" else []
    names = {"license", "license.txt", "license.md", "licence", "licence.txt", "copying"}
    found = [folder / name.replace("\\", "/") for name in wanted]
    found += sorted(path for path in folder.glob("*") if path.name.lower() in names)
    for path in found:
        if path.is_file():
            return path.read_text(encoding="utf-8-sig", errors="replace").replace("\r\n", "\n").strip()
    return ""


def main() -> None:
    source, system = pathlib.Path(sys.argv[1]), sys.argv[2]
    cache = pathlib.Path(os.environ.get("NUGET_PACKAGES") or pathlib.Path.home() / ".nuget" / "packages")
    lock = json.loads((source / "src/Cockpit/packages.lock.json").read_text(encoding="utf-8-sig"))
    packages = {}
    for framework in lock["dependencies"].values():
        for name, entry in framework.items():
            # Analyzers work at build time only.
            if entry.get("type") != "Project" and "resolved" in entry and "Analyzer" not in name:
                packages[name] = entry["resolved"]

    print((source / "NOTICES").read_text(encoding="utf-8").rstrip())
    print(f"\n{'=' * WIDTH}\nThe .NET runtime, parts of which stand in the program (MIT): https://github.com/dotnet/runtime/blob/main/LICENSE.TXT")
    print(f"Packages, as they describe themselves; the words of the MIT licence are those of LICENSE, under the names below; {system}\n")
    missing = []
    for name, version in sorted(packages.items(), key=lambda item: item[0].lower()):
        folder = folder_of(cache, name, version)
        about = nuspec(folder, name)
        if not about:
            missing.append(name)
            continue
        words = about.get("license") if about.get("kind") == "expression" else about.get("licenseUrl", about.get("license", "not told"))
        print(f"{'-' * WIDTH}\n{name} {version}: {words}")
        for key in ("copyright", "authors", "projectUrl"):
            if about.get(key):
                print(f"  {about[key]}")
        text = text_of(folder, about)
        if text:
            print("\n" + "\n".join("  " + line if line else "" for line in text.split("\n")) + "\n")
    if missing:
        sys.exit(f"the package cache lacks {', '.join(missing)}: restore first")


if __name__ == "__main__":
    main()
