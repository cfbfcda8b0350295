"""What others made, for one archive: the project's own NOTICES, then each package that stands in it, from the packages' own data.

Usage: notices.py SOURCE SYSTEM, after the publish of that system. SOURCE/src/Cockpit/obj/project.assets.json says which packages and which parts of
the runtime went in; the package cache (NUGET_PACKAGES, else ~/.nuget/packages) has what they say of themselves.
"""

import json
import os
import pathlib
import sys
import xml.etree.ElementTree as ET

WIDTH = 100


def nuspec(folder: pathlib.Path, name: str) -> dict:
    data = {}
    for element in ET.parse(folder / f"{name.lower()}.nuspec").getroot().iter():
        tag = element.tag.split("}")[-1]
        if tag in ("license", "licenseUrl", "copyright", "authors", "projectUrl") and element.text:
            data[tag] = element.text.strip()
            if tag == "license":
                data["kind"] = element.get("type", "")
    return data


def texts_of(folder: pathlib.Path, about: dict) -> list[str]:
    """The licence's own words, and those of what the package itself contains of others, where the package brings them."""
    wanted = [about["license"].replace("\\", "/")] if about.get("kind") == "file" else []
    names = {"license", "license.txt", "license.md", "licence", "licence.txt", "copying", "notice", "notice.txt", "third-party-notices.txt"}
    wanted += sorted(path.name for path in folder.iterdir() if path.name.lower() in names)
    return [(folder / name).read_text(encoding="utf-8-sig", errors="replace").replace("\r\n", "\n").strip() for name in dict.fromkeys(wanted) if (folder / name).is_file()]


def in_program(assets: dict, system: str) -> list[tuple[str, str]]:
    target = next(entries for name, entries in assets["targets"].items() if name.endswith("/" + system))
    found = []
    for name, entry in target.items():
        files = [file for kind in ("runtime", "native", "resource") for file in entry.get(kind, {})]
        if entry["type"] == "package" and any(not file.endswith("_._") for file in files):
            found.append(tuple(name.split("/")))
    for framework in assets["project"]["frameworks"].values():
        for pack in framework.get("downloadDependencies", []):
            # The compilers themselves stay here; of the runtimes, what was trimmed away is nobody's loss.
            if ".Runtime" in pack["name"]:
                found.append((pack["name"], pack["version"].strip("[]").split(",")[0]))
    return sorted(found, key=lambda one: one[0].lower())


def main() -> None:
    source, system = pathlib.Path(sys.argv[1]), sys.argv[2]
    cache = pathlib.Path(os.environ.get("NUGET_PACKAGES") or pathlib.Path.home() / ".nuget" / "packages")
    assets = json.loads((source / "src/Cockpit/obj/project.assets.json").read_text(encoding="utf-8-sig"))

    print((source / "NOTICES").read_text(encoding="utf-8").rstrip())
    print(f"\n{'=' * WIDTH}\nPackages of which parts stand in this program ({system}), as they describe themselves. The words of the MIT licence are those of LICENSE,")
    print("under the names below; of the others, and what the packages bring of their own, below the list.\n")
    words: dict[str, list[str]] = {}
    for name, version in in_program(assets, system):
        folder = cache / name.lower() / version.lower()
        about = nuspec(folder, name)
        kind = about["license"] if about.get("kind") == "expression" else about.get("licenseUrl", "see below")
        print(f"{name} {version}: {kind}")
        for key in ("copyright", "authors", "projectUrl"):
            if about.get(key):
                print(f"    {about[key]}")
        texts = texts_of(folder, about)
        own = pathlib.Path(__file__).parent / "licences" / f"{kind}.txt"
        if own.is_file():
            texts.append(own.read_text(encoding="utf-8").strip())
        elif not texts and kind != "MIT" and not kind.startswith("http"):
            sys.exit(f"{name} {version} is under {kind}, whose words are not in packaging/licences: add them")
        for text in texts:
            words.setdefault(text, []).append(f"{name} {version}")
    for text, names in words.items():
        print(f"\n{'-' * WIDTH}\n{', '.join(names)}\n\n{text}")


if __name__ == "__main__":
    main()
