#!/usr/bin/python3
"""How long a whole map takes, heights and four factor rasters to a map of losses, as a ratio within one run.

    tests/bench/whole_map.py build/release/soilhold-maps
    tests/bench/whole_map.py build/release/soilhold-maps --kind tilt
    tests/bench/whole_map.py build/release/soilhold-maps --sizes 2000,10000
    tests/bench/whole_map.py build/release/soilhold-maps --folder rasters

Beside it runs one gdal_translate of the heights with the same packing: both read the same file and write as many cells.
The two take turns; of each the best of several rounds counts. Two cores and 64 MB of GDAL's cache for both. The rasters
are made where --folder says (a temporary folder when not given); those that are there already are taken.
"""
import argparse
import os
import pathlib
import subprocess
import sys
import tempfile
import time

sys.dont_write_bytecode = True  # nothing is left in the source tree

from made_map import make_map


def run(words, cores):
    """Wall seconds, seconds of the processors, and the largest memory in bytes."""
    def on_cores():
        os.sched_setaffinity(0, sorted(os.sched_getaffinity(0))[:cores])

    start = time.perf_counter()
    process = subprocess.Popen(words, preexec_fn=on_cores, env={**os.environ, "GDAL_CACHEMAX": "64"},
                               stdout=subprocess.DEVNULL)
    _, status, used = os.wait4(process.pid, 0)
    wall = time.perf_counter() - start
    process.returncode = os.waitstatus_to_exitcode(status)
    if process.returncode != 0:
        raise SystemExit(f"failed: {' '.join(words)}")
    return wall, used.ru_utime + used.ru_stime, used.ru_maxrss * 1024


def side_of(dem):
    info = subprocess.run(["gdalinfo", dem], check=True, capture_output=True, text=True).stdout
    line = next(line for line in info.splitlines() if line.startswith("Size is"))
    columns, rows = (int(number) for number in line[len("Size is"):].split(","))
    return columns * rows


def measure(program, folder, rounds, cores):
    place = {name: str(pathlib.Path(folder) / f"{name}.tif") for name in ("dem", "r", "k", "c", "p")}
    out = pathlib.Path(folder) / "out"
    ours = [program, "terrain", place["dem"], "--height-unit", "m", "--rain", f"{place['r']} SI", "--soil",
            f"{place['k']} SI", "--cover", place["c"], "--practice", place["p"], "--write", "loss", "--quiet",
            "--threads", str(cores), "--out", str(out)]
    # The packing of soilhold's own loss: no differences, tiles of 256.
    translate = ["gdal_translate", "-q", "-co", "TILED=YES", "-co", "COMPRESS=ZSTD", "-co", "ZSTD_LEVEL=1",
                 "-co", "PREDICTOR=1", place["dem"], f"{out}-copy.tif"]
    cells = side_of(place["dem"])
    best = {}
    for _ in range(rounds):
        for name, words in (("map", ours), ("copy", translate)):
            wall, cpu, memory = run(words, cores)
            before = best.get(name, (wall, cpu, 0))
            best[name] = (min(before[0], wall), min(before[1], cpu), max(before[2], memory))
    for name in ("-loss.tif", "-copy.tif"):
        pathlib.Path(f"{out}{name}").unlink()
    (wall, cpu, memory), (copy, copy_cpu, _) = best["map"], best["copy"]
    print(f"{cells:>12,} cells: map {wall:.2f} s ({cpu:.2f} s of processor), copy {copy:.2f} s ({copy_cpu:.2f} s), "
          f"ratio {wall / copy:.2f}, {memory / cells:.1f} bytes a cell at the peak, {1e9 * wall / cells:.1f} ns a cell",
          flush=True)
    return 1e9 * wall / cells


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("program", help="soilhold-maps")
    parser.add_argument("--kind", choices=["standard", "tilt"], default="standard")
    parser.add_argument("--sizes", default="5000", help="cells a side: 5000, or 2000,10000")
    parser.add_argument("--folder", help="of dem.tif, r.tif, k.tif, c.tif and p.tif; what is missing is made there")
    parser.add_argument("--rounds", type=int, default=5)
    parser.add_argument("--cores", type=int, default=2)
    given = parser.parse_args()
    took = []
    with tempfile.TemporaryDirectory() as made:
        for side in (int(size) for size in given.sizes.split(",")):
            folder = given.folder or f"{made}/{given.kind}-{side}"
            make_map(folder, side, given.kind)
            took.append(measure(given.program, folder, given.rounds, given.cores))
    if len(took) > 1:
        print(f"a cell of the last takes {took[-1] / took[0]:.2f} times a cell of the first")


if __name__ == "__main__":
    main()
