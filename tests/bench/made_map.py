"""Makes ground and four factors for the benchmark of whole maps, from a seed: no place on earth.

Standard: hills of many sizes in steps of 1 cm, survey noise that makes a pit of every few cells, level benches and
lakes, a wavy rim and holes without heights. Tilt: a plane of 30 % with low hills and few pits. Cells of 5 m on UTM.
"""
import pathlib
import subprocess

import numpy

CELL_M = 5
NONE = -9999
ROWS_AT_A_TIME = 500


class Waves:
    """Smooth noise between -1 and 1: values on a lattice, joined smoothly."""

    def __init__(self, side, wavelength, seed):
        self.wavelength = wavelength
        lattice = int(side / wavelength) + 3
        self.values = numpy.random.default_rng(seed).uniform(-1, 1, (lattice, lattice)).astype(numpy.float32)

    @staticmethod
    def _places(first, count, wavelength):
        at = (numpy.arange(first, first + count) / wavelength).astype(numpy.float32)
        whole = at.astype(int)
        part = at - whole
        return whole, part * part * (3 - 2 * part)

    def rows(self, first, count, side):
        y, v = self._places(first, count, self.wavelength)
        x, u = self._places(0, side, self.wavelength)
        lines = self.values[y] * (1 - v)[:, None] + self.values[y + 1] * v[:, None]
        return lines[:, x] * (1 - u) + lines[:, x + 1] * u


def _heights(side, kind):
    tilt = kind == "tilt"
    hills = [(Waves(side, 1200 / 2**i, 10 + i), (4 if tilt else 70) * 0.53**i) for i in range(10)]
    rim, holes, benches = Waves(side, 150, 31), Waves(side, 40, 32), Waves(side, 300, 33)
    chance = numpy.random.default_rng(34)
    for first in range(0, side, ROWS_AT_A_TIME):
        count = min(ROWS_AT_A_TIME, side - first)
        z = numpy.full((count, side), 400, numpy.float32)
        for waves, height in hills:
            z += height * waves.rows(first, count, side)
        row = numpy.arange(first, first + count, dtype=numpy.float32)[:, None]
        column = numpy.arange(side, dtype=numpy.float32)[None, :]
        if tilt:
            z += 0.3 * CELL_M * row * min(1, 8000 / (0.3 * CELL_M * side))
        noise = chance.standard_normal((count, side)).astype(numpy.float32)
        z += noise * (0.01 if tilt else 0.06)
        if not tilt:
            z = numpy.where(benches.rows(first, count, side) > 0.55, numpy.floor(z / 4) * 4, z)
        z = numpy.round(z, 2)
        edge = numpy.minimum(numpy.minimum(row, side - 1 - row), numpy.minimum(column, side - 1 - column))
        z[edge < side * 0.008 * (1.2 + rim.rows(first, count, side))] = NONE
        if not tilt:
            z[holes.rows(first, count, side) > 0.93] = NONE
        yield z


def _factor(side, least, most, seed, fields):
    smooth = Waves(side, side / 3 + 1, seed)
    lattice = numpy.random.default_rng(seed + 1).uniform(0, 1, (side // 60 + 1, side // 40 + 1)).astype(numpy.float32)
    for first in range(0, side, ROWS_AT_A_TIME):
        count = min(ROWS_AT_A_TIME, side - first)
        if fields:
            rows, columns = numpy.arange(first, first + count) // 60, numpy.arange(side) // 40
            share = lattice[rows][:, columns]
        else:
            share = (smooth.rows(first, count, side) + 1) / 2
        yield (least + (most - least) * share).astype(numpy.float32)


def _write(path, side, parts):
    raw = path.with_suffix(".bil")
    with open(raw, "wb") as out:
        for part in parts:
            out.write(part.astype("<f4").tobytes())
    raw.with_suffix(".hdr").write_text(
        f"nrows {side}\nncols {side}\nnbands 1\nnbits 32\npixeltype float\nbyteorder I\nlayout bil\n"
        f"ulxmap {500000 + CELL_M / 2}\nulymap {5600000 - CELL_M / 2}\nxdim {CELL_M}\nydim {CELL_M}\n")
    subprocess.run(["gdal_translate", "-q", "-of", "GTiff", "-a_srs", "EPSG:32633", "-a_nodata", str(NONE),
                    "-co", "TILED=YES", "-co", "BIGTIFF=IF_SAFER", str(raw), str(path)], check=True)
    raw.unlink()
    raw.with_suffix(".hdr").unlink()


def make_map(folder, side, kind):
    """dem.tif, r.tif, k.tif, c.tif and p.tif; what is there already is left."""
    folder = pathlib.Path(folder)
    folder.mkdir(parents=True, exist_ok=True)
    wanted = {"dem": lambda: _heights(side, kind), "r": lambda: _factor(side, 2000, 4500, 41, False),
              "k": lambda: _factor(side, 0.01, 0.06, 43, True), "c": lambda: _factor(side, 0.01, 0.5, 45, True),
              "p": lambda: _factor(side, 0.5, 1, 47, True)}
    for name, parts in wanted.items():
        path = folder / f"{name}.tif"
        if not path.exists():
            _write(path, side, parts())
