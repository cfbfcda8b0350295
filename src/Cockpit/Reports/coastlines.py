#!/usr/bin/env python3
"""Coastlines for the map of the review page. coastlines.py land-50m.json coastlines.txt
Input: land-50m.json of the npm package world-atlas 2.0.2, Natural Earth 4.1.0 land boundaries, 1:50m, public domain."""
import json, sys
T = json.load(open(sys.argv[1]))
sx, sy = T["transform"]["scale"]; tx, ty = T["transform"]["translate"]
def arc(points):
    x = y = 0; out = []
    for dx, dy in points:
        x += dx; y += dy; out.append((x * sx + tx, y * sy + ty))
    return out
A = [arc(a) for a in T["arcs"]]
def ring(idx):
    out = []
    for i in idx:
        a = A[i] if i >= 0 else A[~i][::-1]
        out += a[1:] if out else a
    return out
rings = []
for g in T["objects"]["land"]["geometries"]:
    for poly in (g["arcs"] if g["type"] == "MultiPolygon" else [g["arcs"]]):
        rings += [ring(r) for r in poly]
def thin(p, tol):
    if len(p) < 3: return p
    (x0, y0), (x1, y1) = p[0], p[-1]; L = ((x1-x0)**2 + (y1-y0)**2) ** .5; worst, at = 0, 0
    for i in range(1, len(p) - 1):
        x, y = p[i]
        d = abs((x1-x0)*(y0-y) - (x0-x)*(y1-y0)) / L if L > 1e-9 else ((x-x0)**2 + (y-y0)**2) ** .5
        if d > worst: worst, at = d, i
    return [p[0], p[-1]] if worst <= tol else thin(p[:at+1], tol)[:-1] + thin(p[at:], tol)
sys.setrecursionlimit(10000); n = 0
with open(sys.argv[2], "w") as f:
    f.write("# Coastlines, hundredths of a degree: longitude and latitude of the first point, then steps. One line a coast.\n")
    f.write("# Natural Earth 4.1.0, land boundaries 1:50m, public domain; thinned to 0.08 degrees, islands under 0.4 degrees left out.\n")
    for r in sorted(rings, key=len, reverse=True):
        xs = [p[0] for p in r]; ys = [p[1] for p in r]
        if max(max(xs)-min(xs), max(ys)-min(ys)) < 0.4: continue
        half = len(r) // 2
        p = thin(r[:half+1], 0.08)[:-1] + thin(r[half:], 0.08)
        q = [(round(x*100), round(y*100)) for x, y in p]
        d = [q[0]] + [(b[0]-a[0], b[1]-a[1]) for a, b in zip(q, q[1:]) if b != a]
        n += len(d); f.write(" ".join("%d,%d" % c for c in d) + "\n")
print(n)
