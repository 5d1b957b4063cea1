#!/usr/bin/env python3
"""Follows a printed working (--explain) as a reader with a calculator would, and fails where it comes to something else.

Reads the text or the JSON (--json) from standard input. Only the printed numbers are used: each working is computed
anew and set beside the value that stands after it.
"""
import json
import math
import re
import sys

FUNCTIONS = {"sqrt": math.sqrt, "exp": math.exp, "ln": math.log, "min": min, "max": max}
PLAIN = re.compile(r"^[-+*/^(),. 0-9x]*$")
UNITS = r"(?: (?:%|C|class|SI|US|t/ha|t/ac|t|mm|yr/cm|kg/ha|km2|m|ha|in|ft|yr|per %|t/m3|US tons))?"


def compute(working):
    """The value of a working, or None where it holds symbols and is an equation rather than a working."""
    bare = re.sub(r"\b(sqrt|exp|ln|min|max)\b", "", working)
    if not PLAIN.match(bare):
        return None
    try:
        return float(eval(working.replace(" x ", " * ").replace("^", "**"), {"__builtins__": {}}, FUNCTIONS))
    except (SyntaxError, TypeError, NameError):
        return None


def agrees(found, said):
    # Five figures a number; a difference of two such numbers is known to less.
    return abs(found - said) <= 5e-4 * abs(said) + 1e-6


def check(working, said, place, wrong):
    found = compute(working)
    if found is None:
        return 0
    if not agrees(found, said):
        wrong.append(f"{place}: {working} comes to {found:.6g}, not to {said:.6g}")
    return 1


def steps_in(node):
    if isinstance(node, dict):
        for key, value in node.items():
            if key == "steps":
                yield from value
            else:
                yield from steps_in(value)
    elif isinstance(node, list):
        for value in node:
            yield from steps_in(value)


def check_json(text, wrong):
    done = 0
    for step in steps_in(json.loads(text)):
        for working, value in (("working", "value"), ("upper_working", "upper")):
            if not step.get(working):
                continue
            if compute(step[working]) is None:
                wrong.append(f"{step['words']}: {step[working]} is no arithmetic")
            done += check(step[working], step[value], step["words"], wrong)
    return done


def check_text(text, wrong):
    done = 0
    start = text.index("\nHow each value came about\n")
    text = re.sub(r"\n        ", " ", text[start:])
    for line in text.splitlines():
        if not line.startswith("      "):
            continue
        line = line.strip().removeprefix("= ")  # a figure that was given
        ends = line[5:].split(" to ") if line.startswith("from ") else [line[3:] if line.startswith("to ") else line]
        for chain in ends:
            parts = chain.split(" = ")
            value = re.match(r"^(-?[0-9.]+)" + UNITS + r"(?: \(.*\))?$", parts[-1])
            if not value:
                wrong.append(f"{line}: ends in no value")
                continue
            done += sum(check(part, float(value.group(1)), line, wrong) for part in parts[:-1])
    return done


def main():
    text = sys.stdin.read()
    wrong = []
    done = check_json(text, wrong) if text.lstrip().startswith("{") else check_text(text, wrong)
    for line in wrong:
        print(line)
    print(f"{done} workings followed, {len(wrong)} wrong")
    return 1 if wrong or done < int(sys.argv[1]) else 0


if __name__ == "__main__":
    sys.exit(main())
