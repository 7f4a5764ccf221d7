#!/usr/bin/env python3
"""Draws the plots of docs/physics.md as SVG beside this file, from the program's own output.

usage: docs/plots/plot.py [TEST_PHYSICS]
TEST_PHYSICS is the test program, usually build/native/tests/test_physics (tests/run physics builds it).
"""
import csv
import math
import os
import subprocess
import sys
import tempfile

HERE = os.path.dirname(os.path.abspath(__file__))
ROOT = os.path.dirname(os.path.dirname(HERE))
WIDTH, HEIGHT = 720, 440
LEFT, RIGHT, TOP, BOTTOM = 70, 70, 44, 56
FIRST, SECOND, GREY = "#17606b", "#b0441c", "#6b6b6b"


class Axis:
    """Maps values to pixels, linear or by decades."""

    def __init__(self, least, greatest, begin, end, log=False):
        self.log, self.begin, self.end = log, begin, end
        self.least, self.greatest = least, greatest

    def at(self, value):
        f = math.log10 if self.log else float
        share = (f(value) - f(self.least)) / (f(self.greatest) - f(self.least))
        return self.begin + share * (self.end - self.begin)


class Plot:
    def __init__(self, title, x, y, right=None):
        self.x, self.y, self.right = x, y, right
        self.body = [f'<text x="{LEFT}" y="24" font-size="17" font-weight="600">{title}</text>']

    def line(self, points, colour, dash="", axis=None, width=2):
        axis = axis or self.y
        text = " ".join(f"{self.x.at(a):.1f},{axis.at(b):.1f}" for a, b in points)
        self.body.append(f'<polyline points="{text}" fill="none" stroke="{colour}" '
                         f'stroke-width="{width}" stroke-dasharray="{dash}"/>')

    def dots(self, points, colour, axis=None):
        axis = axis or self.y
        for a, b in points:
            self.body.append(f'<circle cx="{self.x.at(a):.1f}" cy="{axis.at(b):.1f}" r="4" '
                             f'fill="white" stroke="{colour}" stroke-width="1.5"/>')

    def beam(self, a, low, high, colour, shift=0):
        """A window: an upright bar with ends."""
        x, y1, y2 = self.x.at(a) + shift, self.y.at(low), self.y.at(high)
        self.body.append(f'<path d="M{x - 5:.1f} {y1:.1f}h10M{x - 5:.1f} {y2:.1f}h10M{x:.1f} {y1:.1f}'
                         f'V{y2:.1f}" fill="none" stroke="{colour}" stroke-width="1.5"/>')

    def text(self, a, b, words, colour="#222", anchor="start", axis=None):
        axis = axis or self.y
        self.body.append(f'<text x="{self.x.at(a):.1f}" y="{axis.at(b):.1f}" fill="{colour}" '
                         f'text-anchor="{anchor}">{words}</text>')

    def scale_x(self, ticks, name):
        for value, words in ticks:
            x = self.x.at(value)
            self.body.append(f'<path d="M{x:.1f} {TOP}V{HEIGHT - BOTTOM}" stroke="#e3e3e3"/>'
                             f'<text x="{x:.1f}" y="{HEIGHT - BOTTOM + 18}" '
                             f'text-anchor="middle">{words}</text>')
        self.body.append(f'<text x="{(LEFT + WIDTH - RIGHT) / 2}" y="{HEIGHT - 14}" '
                         f'text-anchor="middle">{name}</text>')

    def scale_y(self, ticks, name, axis=None, colour="#222"):
        right = axis is not None
        axis = axis or self.y
        for value, words in ticks:
            y = axis.at(value)
            if not right:
                self.body.append(f'<path d="M{LEFT} {y:.1f}H{WIDTH - RIGHT}" stroke="#e3e3e3"/>')
            x, anchor = (WIDTH - RIGHT + 8, "start") if right else (LEFT - 8, "end")
            self.body.append(f'<text x="{x}" y="{y + 4:.1f}" text-anchor="{anchor}" '
                             f'fill="{colour}">{words}</text>')
        x = WIDTH - 16 if right else 18
        self.body.append(f'<text transform="translate({x} {(TOP + HEIGHT - BOTTOM) / 2}) rotate(-90)" '
                         f'text-anchor="middle" fill="{colour}">{name}</text>')

    def save(self, name):
        frame = (f'<rect x="{LEFT}" y="{TOP}" width="{WIDTH - LEFT - RIGHT}" '
                 f'height="{HEIGHT - TOP - BOTTOM}" fill="none" stroke="#444"/>')
        with open(os.path.join(HERE, name), "w", encoding="utf-8") as out:
            out.write(f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH} {HEIGHT}" '
                      f'font-family="Open Sans, sans-serif" font-size="13" fill="#222">\n'
                      f'<rect width="{WIDTH}" height="{HEIGHT}" fill="white"/>\n')
            out.write("\n".join(self.body + [frame]) + "\n</svg>\n")


def across(least, greatest, log=False):
    return Axis(least, greatest, LEFT, WIDTH - RIGHT, log)


def upright(least, greatest, log=False):
    return Axis(least, greatest, HEIGHT - BOTTOM, TOP, log)


def read(folder, name):
    with open(os.path.join(folder, name + ".csv"), encoding="utf-8") as file:
        return [{k: v if k == "style" else float(v) for k, v in row.items()}
                for row in csv.DictReader(file)]


# Rows F02-F06, F14, F15: multiple, least s, greatest s. Which are seen and which from memory
# is said in tests/physics/published_fuses.cpp.
BLADE = [(1.35, 0.75, 600), (1.6, 0.25, 50), (2.0, 0.15, 5), (3.5, 0.08, 0.5), (6.0, 0.02, 0.1)]
STRIP = [(1.35, 120, 1800), (2.0, 1, 15), (3.5, 0.3, 5), (6.0, 0.1, 1)]


def fuses(folder):
    rows = read(folder, "fuses")
    plot = Plot("Fuses: opening time against current, with their windows",
                across(1.1, 10, True), upright(0.01, 3000, True))
    plot.scale_x([(v, str(v)) for v in (1.35, 1.6, 2, 3.5, 6, 10)], "current over rating")
    plot.scale_y([(v, str(v)) for v in (0.01, 0.1, 1, 10, 100, 1000)], "opens after, s")
    for style, windows, colour, dash, shift in (("blade", BLADE, FIRST, "", -4),
                                                ("strip", STRIP, SECOND, "7 4", 4)):
        points = [(r["multiple"], r["opens_s"]) for r in rows
                  if r["style"] == style and 0.01 <= r["opens_s"] <= 3000]
        plot.line(points, colour, dash)
        for multiple, low, high in windows:
            plot.beam(multiple, low, high, colour, shift)
    plot.text(2.45, 14, "strip fuse 50 A (dashed) and its windows", SECOND)
    plot.text(1.14, 0.03, "blade fuse 7.5 A and its windows", FIRST)
    plot.save("fuses.svg")


def motor(folder):
    rows = read(folder, "motor")
    amps = upright(0, 80)
    plot = Plot("A motor runs up: ours (lines) and SUNDIALS IDA (rings)", across(0, 1.5),
                amps, upright(0, 400))
    plot.scale_x([(v / 10, str(v / 10)) for v in range(0, 16, 3)], "time, s")
    plot.scale_y([(v, str(v)) for v in range(0, 81, 20)], "current, A", None, FIRST)
    plot.scale_y([(v, str(v)) for v in range(0, 401, 100)], "speed, rad/s", plot.right, SECOND)
    plot.line([(r["time_s"], r["current_A"]) for r in rows], FIRST)
    plot.line([(r["time_s"], r["speed_rad_s"]) for r in rows], SECOND, "7 4", plot.right)
    some = rows[::20]
    plot.dots([(r["time_s"], r["ida_current_A"]) for r in some], FIRST)
    plot.dots([(r["time_s"], r["ida_speed_rad_s"]) for r in some], SECOND, plot.right)
    plot.text(0.17, 62, "current", FIRST)
    plot.text(1.12, 318, "speed (dashed)", SECOND, axis=plot.right)
    plot.save("motor.svg")


def cable(folder):
    rows = [r for r in read(folder, "cable") if r["time_s"] <= 15]
    events = read(folder, "cable_events")
    plot = Plot("A battery shorted by its own 10 mm² link: the cable cooks", across(0, 15),
                upright(0, 1200), upright(0, 1200))
    plot.scale_x([(v, str(v)) for v in range(0, 16, 3)], "time, s")
    plot.scale_y([(v, str(v)) for v in range(0, 1201, 200)], "conductor, °C", None, FIRST)
    plot.scale_y([(v, str(v)) for v in range(0, 1201, 200)], "current, A", plot.right, SECOND)
    plot.line([(r["time_s"], r["temp_C"]) for r in rows], FIRST)
    plot.line([(r["time_s"], r["current_A"]) for r in rows], SECOND, "7 4", plot.right)
    words = {5: "softens", 6: "smokes", 7: "burns", 8: "parts"}
    for e in events:
        plot.dots([(e["time_s"], e["temp_C"])], FIRST)
        last = e is events[-1]
        plot.text(e["time_s"] + (-0.25 if last else 0.25), e["temp_C"] + (30 if last else -35),
                  f'{words[int(e["kind"])]} at {e["temp_C"]:.0f} °C, {e["time_s"]:.1f} s', FIRST,
                  "end" if last else "start")
    plot.text(4.0, 935, "current (dashed)", SECOND, axis=plot.right)
    plot.save("cable.svg")


def main():
    program = sys.argv[1] if len(sys.argv) > 1 else os.path.join(ROOT, "build/native/tests/test_physics")
    if not os.path.exists(program):
        sys.exit(f"plot.py: {program}: not there; tests/run physics builds it")
    with tempfile.TemporaryDirectory() as folder:
        subprocess.run([program, "-tc=plot data*"], check=True, stdout=subprocess.DEVNULL,
                       env={**os.environ, "LOOM_PLOT_DATA": folder})
        fuses(folder)
        motor(folder)
        cable(folder)


if __name__ == "__main__":
    main()
