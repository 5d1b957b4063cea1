#!/usr/bin/env python3
"""Works the steps of soilhold terrain and the sums of soilhold watershed a second time, on other roads than lib/.

  ground_by_numpy.py ground HEIGHTS FILLED DIRECTIONS AREA    filling, directions and drained ground, cell by cell
  ground_by_numpy.py grass FILLED DIRECTIONS AREA GRASS-DIRECTIONS GRASS-ACCUMULATION
  ground_by_numpy.py zones LOSS FIELDS.geojson RESULT.json    tons of fields, by points instead of exact shares

Rasters are read through gdal_translate. Fails where the two roads part. Filling: a queue of cells by height from the
border inwards, cell by cell (the priority flood; common practice, no source); drained ground: cells handed on in
topological order (common practice).
"""
import heapq
import json
import os
import subprocess
import sys
import tempfile

import numpy as np

# 1 E, 2 S, 3 W, 4 N, 5 SE, 6 SW, 7 NW, 8 NE: rows go southward
STEPS = {1: (0, 1), 2: (1, 0), 3: (0, -1), 4: (-1, 0), 5: (1, 1), 6: (1, -1), 7: (-1, -1), 8: (-1, 1)}
OUT = 9


def read(path):
    """The first band as doubles, NaN for none; west, north and width of a cell."""
    with tempfile.TemporaryDirectory() as folder:
        raw = os.path.join(folder, "raw")
        subprocess.run(["gdal_translate", "-q", "-of", "ENVI", "-ot", "Float64", path, raw], check=True)
        facts = json.loads(subprocess.run(["gdalinfo", "-json", raw], check=True, capture_output=True).stdout)
        columns, rows = facts["size"]
        values = np.fromfile(raw, dtype="<f8").reshape(rows, columns)
    west, width, _, north, _, _ = facts["geoTransform"]
    return values, west, north, width


def neighbours(row, column, shape):
    for way, (down, right) in STEPS.items():
        r, c = row + down, column + right
        yield way, r, c, 0 <= r < shape[0] and 0 <= c < shape[1]


def flooded(heights):
    filled, queue = heights.copy(), []
    seen = np.isnan(heights)
    for row, column in np.argwhere(~seen):
        if any(not inside or np.isnan(heights[r, c]) for _, r, c, inside in neighbours(row, column, heights.shape)):
            heapq.heappush(queue, (heights[row, column], row, column))
            seen[row, column] = True
    while queue:
        level, row, column = heapq.heappop(queue)
        for _, r, c, inside in neighbours(row, column, heights.shape):
            if inside and not seen[r, c]:
                seen[r, c] = True
                filled[r, c] = max(heights[r, c], level)
                heapq.heappush(queue, (filled[r, c], r, c))
    return filled


def next_cells(directions):
    """For each cell, counted row by row, the cell it gives its water to; -1 for none."""
    rows, columns = np.indices(directions.shape)
    target = np.full(directions.shape, -1)
    for way, (down, right) in STEPS.items():
        down_row, down_column = rows + down, columns + right
        inside = (down_row >= 0) & (down_row < directions.shape[0])
        inside &= (down_column >= 0) & (down_column < directions.shape[1])
        here = (directions == way) & inside
        target[here] = (down_row * directions.shape[1] + down_column)[here]
    return target.ravel()


def handed_on(target, amounts):
    """Amounts summed down the directions, in topological order. Fails on a circle."""
    sums, giving = amounts.astype(float).copy(), np.bincount(target[target >= 0], minlength=target.size)
    ready = list(np.flatnonzero(giving == 0))
    done = 0
    while ready:
        cell = ready.pop()
        done += 1
        to = target[cell]
        if to >= 0:
            sums[to] += sums[cell]
            giving[to] -= 1
            if giving[to] == 0:
                ready.append(to)
    assert done == target.size, "water runs in a circle"
    return sums


def ground(heights_path, filled_path, directions_path, area_path):
    heights, _, _, width = read(heights_path)
    filled, directions, area = (read(path)[0] for path in (filled_path, directions_path, area_path))
    some = ~np.isnan(heights)
    assert (np.isnan(filled) == ~some).all() and ((directions == 0) == ~some).all()
    # The steepest way down, where there is one; level ground may give to any neighbour of its height.
    falls = np.full((9,) + heights.shape, -np.inf)
    padded = np.pad(filled, 1, constant_values=np.nan)
    for way, (down, right) in STEPS.items():
        there = padded[1 + down:padded.shape[0] - 1 + down, 1 + right:padded.shape[1] - 1 + right]
        falls[way] = np.where(np.isnan(there), -np.inf, (filled - there) / np.hypot(down, right))
    steepest = falls.max(axis=0)
    chosen = np.where((directions >= 1) & (directions <= 8), directions, 0).astype(int)
    taken = np.take_along_axis(falls, chosen[None], axis=0)[0]
    falling = some & (steepest > 0) & (directions != OUT)
    assert (abs(taken - steepest)[falling] <= 1e-6).all(), "a direction isn't the steepest"
    level = some & (steepest <= 0) & (directions != OUT)
    assert (taken[level] == 0).all(), "water runs uphill"
    expected = handed_on(next_cells(directions), some.ravel() * width ** 2).reshape(heights.shape)
    assert np.allclose(area[some], expected[some], rtol=1e-6, atol=0), "drained ground parts"
    expected = flooded(heights)
    assert (filled == expected)[some].all(), "filled heights part"
    raised = int((expected > heights)[some].sum())
    assert raised > 100 and level.sum() > 100, "this ground has no pits: nothing was tried"
    print(f"{int(some.sum())} cells, {raised} raised, {int(level.sum())} level: the same")


def grass(filled_path, directions_path, area_path, their_directions_path, their_cells_path):
    """GRASS searches the least costly way out instead of the steepest way down: a few directions differ. Wherever no
    differing cell drains through, the drained cells must be the same to the cell."""
    filled, _, _, width = read(filled_path)
    ours, area = read(directions_path)[0].astype(int), read(area_path)[0]
    theirs_numbered, cells = abs(read(their_directions_path)[0]).astype(int), read(their_cells_path)[0]
    # counterclockwise from north-east, as r.watershed's manual has it
    renamed = {1: 8, 2: 4, 3: 7, 4: 3, 5: 6, 6: 2, 7: 5, 8: 1}
    theirs = np.zeros_like(ours)
    for number, way in renamed.items():
        theirs[theirs_numbered == number] = way
    inner = np.zeros(ours.shape, bool)
    inner[1:-1, 1:-1] = True
    differs = (ours != theirs) & inner
    share = 1 - differs.sum() / inner.sum()
    touched = (handed_on(next_cells(ours), differs.ravel()) > 0) | (handed_on(next_cells(theirs), differs.ravel()) > 0)
    compared = (cells > 0) & ~touched.reshape(ours.shape) & inner
    same = (np.rint(area / width ** 2) == cells)[compared]
    print(f"directions: {share:.4%} the same; drained cells: {same.mean():.4%} of {compared.sum()} the same")
    assert share > 0.99 and compared.sum() > 0.4 * cells.size and same.all()


def covered(ring, west, north, width, shape, side):
    """Share of each cell inside of a ring, by side x side points."""
    xs = west + width * (np.arange(shape[1] * side) + 0.5) / side
    ys = north - width * (np.arange(shape[0] * side) + 0.5) / side
    inside = np.zeros((ys.size, xs.size), bool)
    for (x1, y1), (x2, y2) in zip(ring, ring[1:]):
        if y1 == y2:
            continue
        rows = np.flatnonzero((ys > min(y1, y2)) & (ys <= max(y1, y2)))
        crossing = x1 + (ys[rows] - y1) * (x2 - x1) / (y2 - y1)
        inside[rows] ^= xs[None, :] < crossing[:, None]
    return inside.reshape(shape[0], side, shape[1], side).mean(axis=(1, 3))


def zones(loss_path, fields_path, result_path):
    loss, west, north, width = read(loss_path)
    with open(result_path) as file:
        said = {field["name"]: field for field in json.load(file)["fields"]}
    with open(fields_path) as file:
        features = json.load(file)["features"]
    for feature in features:
        name, ring = feature["properties"]["name"], feature["geometry"]["coordinates"][0]
        weight = covered(ring, west, north, width, loss.shape, 16)
        hectares = weight.sum() * width ** 2 / 1e4
        some = ~np.isnan(loss)
        mean = (weight * np.where(some, loss, 0)).sum() / weight[some].sum()
        for what, found, told in (("ha", hectares, said[name]["area_ha"]), ("t", mean * hectares, said[name]["tons"])):
            print(f"{name}: {told:.4f} {what}, by points {found:.4f}")
            assert abs(found - told) < 2e-3 * told, name
    assert len(features) > 2


if __name__ == "__main__":
    {"ground": ground, "grass": grass, "zones": zones}[sys.argv[1]](*sys.argv[2:])
