#!/usr/bin/env python3
"""The letters of the PNG pictures. letters.py DejaVuSans.ttf letters.ttf
Input: DejaVu Sans 2.37 (see NOTICES), cut down with fontTools 4.38 to Latin, Greek, Cyrillic and a few signs, without hints and features."""
import sys
from fontTools import subset
options = subset.Options()
options.layout_features = []
options.hinting = False
options.notdef_outline = True
font = subset.load_font(sys.argv[1], options)
letters = subset.Subsetter(options)
letters.populate(unicodes=[*range(0x20, 0x7F), *range(0xA0, 0x180), *range(0x370, 0x3FF), *range(0x400, 0x460),
                           0x2013, 0x2014, 0x2018, 0x2019, 0x201C, 0x201D, 0x2026, 0x2190, 0x2191, 0x2192, 0x2193, 0x2212, 0x2264, 0x2265])
letters.subset(font)
subset.save_font(font, sys.argv[2], options)
