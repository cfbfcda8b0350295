"""Looks at a picture of a terminal: whether each cell has ink where the page has a letter, and how many colours there are."""
import json
import numpy
from PIL import Image


def cells(path, columns, rows):
    """The picture cut into its cells: rows, columns, lines, points, colour."""
    pixels = numpy.asarray(Image.open(path).convert("RGB"))
    high, wide = pixels.shape[0] // rows, pixels.shape[1] // columns
    return pixels[: high * rows, : wide * columns].reshape(rows, high, columns, wide, 3).swapaxes(1, 2)


def inked(cell, edge=0):
    """Whether a cell is not of one colour, its edge of so many points left out."""
    inner = cell[edge : cell.shape[0] - edge, edge : cell.shape[1] - edge].astype(int)
    return int(abs(inner - inner[inner.shape[0] // 2, 0]).sum(axis=2).max()) > 40


def wrong(grid, text, rows):
    """Cells, of the first rows, that have ink and should not, or have none and should; letters that fill a cell are passed over."""
    bad = []
    for row, line in enumerate(text[:rows]):
        for column, letter in enumerate(line.ljust(grid.shape[1])[: grid.shape[1]]):
            filled = letter in "█━" or (letter == "#" and row < 5)
            # A neighbour's overhang of one point is no ink of a blank.
            if not filled and inked(grid[row][column], 1 if letter == " " else 0) != (letter != " "):
                bad.append((row, column, letter))
    return bad


def ink(grid):
    """How many cells have ink."""
    return sum(inked(cell, 1) for row in grid for cell in row)


def colours(path, theme):
    """How many colours the theme was drawn with, from its ground and from whatever is not grey."""
    pixels = numpy.asarray(Image.open(path).convert("RGB")).reshape(-1, 3).astype(int)
    style = json.load(open(theme, encoding="utf-8"))
    wanted = [int(style["ground"][at : at + 2], 16) for at in (1, 3, 5)]
    if (abs(pixels.max(axis=1) - pixels.min(axis=1)) < 12).all():
        return "none"
    values, counts = numpy.unique(pixels, axis=0, return_counts=True)
    ground = values[counts.argmax()].tolist()
    return "true colour" if ground == wanted else "16" if ground == [0, 0, 0] else "256"
