#!/usr/bin/env python3
"""Holds the source tree to the rules of docs/architecture.md, and fails by naming what breaks them.

- A folder of lib/ includes only folders that stand before it.
- A third-party header is used only in its room.
- units/ to change/ use no file system, no threads and nothing a browser build lacks.
- Every header opens with what it is, and has no using-directive.
- Every lib/factors/*.h has a section in docs/factors.md; every .cpp of lib has a header of its name.
- Every test file asserts something.
- The top level holds only what it may.
"""
import pathlib
import re
import sys

ROOMS = ["units", "source", "spread", "soiltest", "factors", "rotation", "structure", "loss", "change", "terrain", "input",
         "raster", "watershed", "report"]
THIRD_PARTY = {
    "yaml-cpp/": {"input"},
    "nlohmann/": {"report", "cli"},
    "cairo": {"report"},
    "pango/": {"report"},
    "hb": {"report"},
    "boost/": {"spread", "soiltest", "structure", "factors"},
    "CLI/": {"cli"},
    "tbb/": {"terrain", "raster"},
    "oneapi/": {"terrain", "raster"},
    "gdal": {"raster"},
    "ogr": {"raster"},
    "cpl_": {"raster"},
}
NOT_IN_SCIENCE = ["<filesystem>", "<fstream>", "<thread>", "<mutex>", "<future>", "<source_location>", "<stop_token>",
                  "<format>", "<expected>", "<iostream>"]
TOP = {"CMakeLists.txt", "CMakePresets.json", "README.md", "DEVELOPERS.md", "LICENSE", "CHANGELOG.md", "lib", "cli",
       "tests", "data", "docs", "build", "out"}


def check(root):
    wrong = []
    science = ROOMS[: ROOMS.index("change") + 1]
    for path in sorted(list((root / "lib").rglob("*.h")) + list((root / "lib").rglob("*.cpp")) + list((root / "cli").glob("*.cpp"))):
        name = path.relative_to(root)
        room = path.parts[len(root.parts) + 1] if path.parts[len(root.parts)] == "lib" else "cli"
        text = path.read_text(encoding="utf-8")
        if len(text.splitlines()) > 400:
            wrong.append(f"{name}: {len(text.splitlines())} lines; which second concept moved in?")
        for number, line in enumerate(text.splitlines(), 1):
            include = re.match(r'\s*#include\s*([<"])([^>"]+)[>"]', line)
            if not include:
                if re.match(r"\s*using namespace", line) and path.suffix == ".h":
                    wrong.append(f"{name}:{number}: a header must not open a namespace for its users")
                continue
            target = include.group(2)
            if include.group(1) == '"':
                to = target.split("/")[0]
                if room == "cli":
                    continue
                if to not in ROOMS:
                    wrong.append(f"{name}:{number}: includes {target}, which is no room of lib/")
                elif ROOMS.index(to) > ROOMS.index(room):
                    wrong.append(f"{name}:{number}: {room}/ includes {to}/, which stands after it")
                elif room == "report" and to == "input":
                    wrong.append(f"{name}:{number}: report/ must not know input/")
            else:
                for prefix, homes in THIRD_PARTY.items():
                    if target.startswith(prefix) and ("/" in target or "." in target) and room not in homes:
                        wrong.append(f"{name}:{number}: {target} belongs to {', '.join(sorted(homes))} only")
                if room in science and f"<{target}>" in NOT_IN_SCIENCE:
                    wrong.append(f"{name}:{number}: {room}/ must not use <{target}>")
        if path.suffix == ".h" and not text.startswith("///"):
            wrong.append(f"{name}: a header opens by saying what the concept is (///)")
        if path.suffix == ".cpp" and room != "cli" and not path.with_suffix(".h").exists():
            owner = re.match(r'\s*#include "([^"]+)"', text)
            if not owner or not (root / "lib" / owner.group(1)).exists():
                wrong.append(f"{name}: opens with no header of lib/ whose concept it serves")
    factors_doc = root / "docs" / "factors.md"
    if factors_doc.exists():
        sections = factors_doc.read_text(encoding="utf-8")
        for path in sorted((root / "lib" / "factors").glob("*.h")):
            if f"{path.name}" not in sections:
                wrong.append(f"docs/factors.md: no section names lib/factors/{path.name}")
    for path in sorted((root / "tests").rglob("*_test.cpp")):
        text = path.read_text(encoding="utf-8")
        if not re.search(r"\b(EXPECT|ASSERT|FAIL|RC_ASSERT)", text):
            wrong.append(f"{path.relative_to(root)}: asserts nothing")
        if re.search(r"^\s*//\s*(EXPECT|ASSERT)_", text, re.M):
            wrong.append(f"{path.relative_to(root)}: an assertion is commented out")
    for path in root.iterdir():
        if path.name not in TOP and not path.name.startswith("."):
            wrong.append(f"{path.name}: has no place at the top level")
    return wrong


def self_test(tmp):
    """The check itself fails when a folder includes one after it."""
    (tmp / "lib" / "units").mkdir(parents=True)
    (tmp / "lib" / "units" / "bad.h").write_text('/// bad\n#include "loss/field.h"\n#include <fstream>\n')
    (tmp / "cli").mkdir()
    (tmp / "tests").mkdir()
    found = check(tmp)
    assert any("stands after it" in w for w in found), found
    assert any("must not use <fstream>" in w for w in found), found


if __name__ == "__main__":
    import tempfile
    with tempfile.TemporaryDirectory() as folder:
        self_test(pathlib.Path(folder).resolve())
    problems = check(pathlib.Path(sys.argv[1]).resolve())
    for problem in problems:
        print(problem)
    print(f"{len(problems)} rules broken")
    sys.exit(1 if problems else 0)
