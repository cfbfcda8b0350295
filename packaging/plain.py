"""The README as plain text, 100 columns wide: plain.py README.md. Tables become entries, code is indented, pictures are left out."""

import re
import sys
import textwrap

WIDTH = 100


def bare(text: str) -> str:
    """Words without marks: **strong** and `code` are words too, a link is its words and address."""
    text = re.sub(r"\[([^\]]+)\]\(([^)]+)\)", r"\1 (\2)", text)
    return text.replace("\\|", "|").replace("**", "").replace("`", "")


def filled(text: str, first: str, rest: str) -> str:
    return textwrap.fill(bare(text), WIDTH, initial_indent=first, subsequent_indent=rest, break_long_words=False, break_on_hyphens=False)


def main() -> None:
    out: list[str] = []
    paragraph: list[str] = []
    marks = ("", "")
    heads: list[str] | None = None
    code = False

    def end() -> None:
        if paragraph:
            out.append(filled(" ".join(paragraph), *marks))
            paragraph.clear()

    for line in open(sys.argv[1], encoding="utf-8").read().split("\n"):
        fence = line.lstrip().startswith("```")
        if fence or code:
            end()
            code = code != fence
            if fence:
                out += [""] if out and out[-1] else []
            else:
                out.append("    " + line.rstrip() if line.strip() else "")
            continue
        words = line.strip()
        if not words.startswith("|"):
            heads = None
        if words.startswith(("<img", "<!--", "| ---")):
            end()
        elif not words:
            end()
            if out and out[-1]:
                out.append("")
        elif words.startswith("#"):
            end()
            title = bare(words.lstrip("# "))
            out += [title, ("=" if words.startswith("# ") else "-") * len(title)]
        elif words.startswith("|"):
            end()
            cells = [cell.strip().replace("\0", "\\|") for cell in words.replace("\\|", "\0").strip("|").split("|")]
            if heads is None:
                heads = cells
                continue
            told = [cell if len(cells) == 2 else f"{head}: {cell}" for head, cell in zip(heads[1:], cells[1:]) if cell]
            out += [filled(cells[0], "", "  "), *(filled(cell, "    ", "    ") for cell in told)]
        else:
            item = re.match(r"(\d+\.|-) ", words)
            if item or (paragraph and words.startswith("**")):
                end()
            indent = " " * (len(line) - len(line.lstrip()))
            if not paragraph:
                marks = (indent, indent + " " * (item.end() if item else 0))
            paragraph.append(words)
    end()
    print("\n".join(out).rstrip())


if __name__ == "__main__":
    main()
