"""Tries the program in terminals: trial.py PROGRAM FOLDER REPOSITORY. See .ci/try-terminals."""
import json
import os
import re
import shutil
import subprocess
import sys
import tempfile
import time

import console
import picture
from windows import FONT, NOBODY, Sway, X, nobody, prepared, run

PROGRAM, OUT, REPOSITORY = sys.argv[1:4]
HERE = os.path.dirname(os.path.abspath(__file__))
SESSION = os.path.join(REPOSITORY, "sessions", "sample-bad-pass")
THEMES = os.path.join(REPOSITORY, "themes")
WORK = tempfile.mkdtemp(prefix="terminals-")
SCREEN = ":"
RUNTIME = os.path.join(WORK, "runtime")

# The page of the replay that is compared with its text, without the three rows of message, time line and keys that change.
# A digit of the countdown may be the next one.
MOMENT, CHANGING, ODD = "05:00", 3, 8
SMALL, LARGE = (80, 24), (120, 40)


def xterm(inside, size, *more):
    return ["xterm", "-b", "0", "-bw", "0", "+sb", "-fa", FONT, "-fs", "10", "-geometry", f"{size[0]}x{size[1]}+0+0", *more, "-e", *inside]


def kitty(inside, size):
    told = ["font_family=" + FONT, "font_size=10", "window_padding_width=0", "placement_strategy=top-left", "remember_window_size=no",
            f"initial_window_width={size[0]}c", f"initial_window_height={size[1]}c", "update_check_interval=0", "confirm_os_window_close=0"]
    return ["kitty", "--config", "NONE", *[word for one in told for word in ("-o", one)], *inside]


def alacritty(inside, size):
    told = [f"window.dimensions.columns={size[0]}", f"window.dimensions.lines={size[1]}", "window.decorations=none", f"font.normal.family={FONT}", "font.size=10"]
    return ["alacritty", *[word for one in told for word in ("-o", one)], "-e", *inside]


def foot(inside, size):
    return ["foot", "--config=/dev/null", "-o", "pad=0x0", "-o", f"font={FONT}:size=10", "-o", f"initial-window-size-chars={size[0]}x{size[1]}", "-o", "csd.preferred=none", *inside]


def within(*outer):
    """A terminal inside xterm."""
    return lambda inside, size: xterm([*outer, *inside], size)


TMUX_NAMED = ["tmux", "-L", "cockpit-trial", "-f", "/dev/null", "set", "-g", "default-terminal", "tmux-256color", ";", "new"]

# Name, how it is started, what the environment says, what colours and what drawing the program has to choose.
CASES = [
    ("xterm", xterm, {"TERM": "xterm-256color", "COLORTERM": "truecolor"}, "true colour", "unicode"),
    ("xterm, 16 colours", lambda inside, size: xterm(["env", "TERM=xterm-16color", *inside], size), {}, "16", "unicode"),
    ("xterm, NO_COLOR", xterm, {"NO_COLOR": "1"}, "none", "unicode"),
    ("xterm, TERM=vt100", lambda inside, size: xterm(["env", "TERM=vt100", *inside], size), {}, "none", "ascii"),
    ("xterm, LANG=C", xterm, {"LANG": "C"}, "true colour", "ascii"),
    ("tmux", within("tmux", "-L", "cockpit-trial", "-f", "/dev/null", "new"), {}, "true colour", "unicode"),
    ("tmux, tmux-256color", within(*TMUX_NAMED), {"COLORTERM": "truecolor"}, "true colour", "unicode"),
    ("screen", within("screen", "-U", "-c", "/dev/null"), {"COLORTERM": "truecolor"}, "16", "unicode"),
    ("kitty", kitty, {}, "true colour", "unicode"),
    ("alacritty", alacritty, {}, "true colour", "unicode"),
    ("foot", foot, {}, "true colour", "unicode"),
]

VERSIONS = {"xterm": ("xterm", "-version"), "tmux": ("tmux", "-V"), "screen": ("screen", "--version"), "kitty": ("kitty", "--version"), "alacritty": ("alacritty", "--version"), "foot": ("foot", "--version")}


class Failed(Exception):
    """Something was not as it has to be; the reason is the sentence."""


def require(holds, sentence):
    if not holds:
        raise Failed(sentence)


class Visit:
    """One start of the program in one terminal."""

    def __init__(self, case, size, *words):
        self.name, start, variables, self.colours, self.drawing = case
        self.outer = size
        self.folder = tempfile.mkdtemp(dir=WORK)
        self.sessions = os.path.join(self.folder, "sessions")
        home = os.path.join(self.folder, "home")
        os.makedirs(home)
        os.chmod(self.folder, 0o777)
        os.chmod(home, 0o777)
        said = [PROGRAM, *words, "--sound", "off", "--sessions", self.sessions]
        inside = start(["bash", os.path.join(HERE, "inside.sh"), self.folder, *said], size)
        window = Sway if inside[0] == "foot" else X
        self.terminal = window(RUNTIME if window is Sway else SCREEN, inside, {"HOME": home, **variables})

    def __enter__(self):
        try:
            return self.painted()
        except BaseException:
            self.__exit__()
            raise

    def painted(self):
        self.terminal.find()
        self.until(lambda: self.read("size").count(" ") == 1, "the program did not start")
        self.rows, self.columns = map(int, self.read("size").split())
        self.until(lambda: self.looked(lambda grid: picture.ink(grid) > 400), "nothing was painted")
        return self

    def __exit__(self, *_):
        # A pass goes on without its terminal: what did not end is ended here.
        if not os.path.exists(self.path("ended")):
            self.signal(9)
        self.write("close")
        self.terminal.end()
        if self.name.startswith("tmux"):
            run("tmux", "-L", "cockpit-trial", "kill-server")

    def path(self, name):
        return os.path.join(self.folder, name)

    def read(self, name):
        try:
            with open(self.path(name), encoding="utf-8", errors="replace") as file:
                return file.read()
        except FileNotFoundError:
            return ""

    def write(self, name):
        with open(self.path(name), "w", encoding="utf-8"):
            pass

    def until(self, so, sentence, seconds=30.0):
        end = time.monotonic() + seconds
        while not so():
            require(time.monotonic() < end, sentence)
            time.sleep(0.15)

    def looked(self, judge, name="look"):
        path = os.path.join(self.folder, name + ".png")
        self.terminal.shoot(path)
        return judge(picture.cells(path, *self.outer))

    def keep(self, label):
        path = os.path.join(OUT, re.sub(r"[^a-z0-9]+", "-", self.name.lower()).strip("-") + f"-{label}.png")
        self.terminal.shoot(path)
        return path

    def keys(self, *names):
        self.terminal.keys(names)

    def events(self, kind):
        found = []
        for root, _, files in os.walk(self.sessions):
            for file in files:
                with open(os.path.join(root, file), encoding="utf-8", errors="replace") as journal:
                    found += [json.loads(line) for line in journal if f'"type":"{kind}/' in line and line.endswith("\n")]
        return found

    def grow(self, size):
        width, height = self.terminal.size()
        wide, high = width // self.outer[0], height // self.outer[1]
        lost = self.outer[1] - self.rows
        self.terminal.resize(wide * size[0], high * size[1])
        self.outer, self.columns, self.rows = size, size[0], size[1] - lost

    def told_size(self):
        with open(f"/proc/{self.read('pid').strip()}/fd/0", encoding="utf-8") as line:
            return run("stty", "size", stdin=line)

    def signal(self, number):
        inside = self.read("pid").strip()
        for child in run("pgrep", "-P", inside).split() if inside else []:
            os.kill(int(child), number)

    def left_clean(self, code):
        """The program ended, with this exit code, and the terminal is as it was."""
        self.until(lambda: os.path.exists(self.path("ended")), "the program did not end")
        require(self.read("code").strip() == str(code), f"the exit code is {self.read('code').strip()}, not {code}: {self.read('said')[:300]}")
        before, after = (re.sub(r"rows \d+; columns \d+;", "", self.read(name)) for name in ("before", "after"))
        require(before == after, "the terminal's line is not as it was before (stty)")
        modes = dict(line.split(" ", 1) for line in self.read("modes").splitlines())
        told = {mode: answer.split(";")[-1] for mode, answer in modes.items() if answer.endswith(("1", "2", "3", "4"))}
        for mode, what, wanted in (("25", "the cursor", "13"), ("1049", "the alternate screen", "24"), ("1003", "the mouse", "24"), ("2004", "the bracketed paste", "24")):
            require(mode not in told or told[mode] in wanted, f"{what} is left in the wrong mode")
        if self.name.startswith("tmux"):
            flags = run("tmux", "-L", "cockpit-trial", "display", "-p", "#{alternate_on} #{cursor_flag} #{mouse_any_flag}")
            require(flags == "0 1 0", f"tmux says alternate screen, cursor, mouse: {flags}")
            told = modes
        require(self.looked(lambda grid: picture.ink(grid) < 200, "afterwards"), "the page is still there")
        return len(told) > 1


def page(case, size):
    """Replay: the page cell for cell, the themes, left by Q."""
    with Visit(case, size, "replay", SESSION) as visit:
        visit.keys("Space")
        text = [PROGRAM, "replay", SESSION, "--text", MOMENT, "--size", f"{visit.columns}x{visit.rows}", "--drawing", visit.drawing]
        expected = run(*text, env=prepared({})).splitlines()[1:]
        rows = visit.rows - CHANGING

        def mistakes():
            return visit.looked(lambda grid: picture.wrong(grid, expected, rows))

        # On a busy machine a made-up key may come late or not at all: the way there is gone again.
        for attempt in range(60):
            if attempt % 20 == 0:
                visit.keys("Home", *["PageDown"] * 5)
            bad = mistakes()
            if len(bad) <= ODD:
                break
            time.sleep(0.3)
        visit.keep("replay")
        require(len(bad) <= ODD, f"{len(bad)} of {rows * visit.columns} cells are not those of the page, like {bad[:4]}")
        colours = picture.colours(visit.path("look.png"), os.path.join(THEMES, "dusk.json"))
        require(colours == visit.colours, f"{colours} instead of {visit.colours} colours")
        visit.keys("n")
        time.sleep(0.6)
        night = visit.keep("night")
        require(colours == "none" or picture.colours(night, os.path.join(THEMES, "night.json")) != "none", "the night theme has no colours")
        visit.keys("q")
        return colours, visit.left_clean(0), len(bad)


def steered(case):
    """Rehearsal: the keys reach the dish, the page follows the window, left by Ctrl+C."""
    with Visit(case, SMALL, "rehearse", "--seed", "5", "--measure") as visit:
        visit.until(lambda: visit.events("head.measured") or visit.events("clock.ticked") or os.path.isdir(visit.sessions), "no session began")
        visit.keys("Left", "Up", "Shift-Right", "Space")
        visit.until(lambda: len(visit.events("operator.pressed")) == 1 and len(visit.events("head.turned")) == 3, "not every key came: arrows, Shift and arrow, Space")
        turned = [(round(event["data"]["pan_rad"] * 57.29578), round(event["data"]["tilt_rad"] * 57.29578)) for event in visit.events("head.turned")]
        require(turned == [(-1, 0), (0, 1), (5, 0)], f"the keys turned the dish by {turned}")
        visit.grow(LARGE)
        visit.until(lambda: visit.told_size() == f"{visit.rows} {visit.columns}", f"the terminal does not become {LARGE}")
        visit.until(lambda: visit.looked(lambda grid: all(picture.inked(grid[visit.rows - 1][column]) for column in range(1, 6))), "the page does not follow the size of the window")
        visit.keep("rehearse")
        visit.keys("Ctrl-C")
        visit.left_clean(0)
        return re.search(r"first paint[^0-9]*([0-9.]+ ?m?s)", visit.read("said"))


def demo(case):
    """The demo, large, ended from outside."""
    with Visit(case, LARGE) as visit:
        time.sleep(2.0)
        visit.keep("demo")
        visit.signal(15)
        visit.left_clean(143)


def tried(case):
    colours, told, _ = page(case, SMALL)
    paint = steered(case)
    demo(case)
    return f"{colours:12} {case[4]:8} first paint {paint.group(1) if paint else '?':8} {'modes asked' if told else 'modes not told by the terminal'}"


def version(name):
    words = VERSIONS[name.split(",")[0]]
    return re.sub(r".*?([0-9]+[0-9.]*[a-z]?).*", r"\1", (run(*words) or "?").splitlines()[0])


def main():
    global SCREEN
    only = os.environ.get("ONLY", "").split()
    os.makedirs(RUNTIME, mode=0o700)
    os.chmod(WORK, 0o755)
    if os.geteuid() == 0:
        os.chown(RUNTIME, NOBODY, NOBODY)
    linux = console.Machine(PROGRAM, OUT, REPOSITORY, WORK) if not only or "console" in only else None
    servers = [
        subprocess.Popen(["Xvfb", "-displayfd", "1", "-screen", "0", "1400x1000x24"], stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True),
        subprocess.Popen(["sway", "-c", os.path.join(HERE, "sway.conf")], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, **nobody(),
                         env={**os.environ, "HOME": RUNTIME, "XDG_RUNTIME_DIR": RUNTIME, "SWAYSOCK": os.path.join(RUNTIME, "sway.sock"), "WLR_BACKENDS": "headless", "WLR_LIBINPUT_NO_DEVICES": "1", "WLR_RENDERER": "pixman"}),
    ]
    failed = count = 0
    try:
        # The server takes a number that is free, and says it when it is ready.
        SCREEN += servers[0].stdout.readline().strip()
        for _ in range(200):
            if os.path.exists(os.path.join(RUNTIME, "wayland-1")):
                break
            time.sleep(0.1)
        for case in CASES:
            if only and case[0].split(",")[0] not in only:
                continue
            count += 1
            try:
                row = tried(case)
            except (Failed, RuntimeError) as why:
                failed += 1
                row = f"FAILED: {why}"
            print(f"{case[0]:20} {version(case[0]):8} {row}", flush=True)
        if linux:
            count += 1
            try:
                row = linux.tried()
            except (Failed, RuntimeError) as why:
                failed += 1
                row = f"FAILED: {why}"
            print(f"{'Linux console':20} {linux.version:8} {row}", flush=True)
    finally:
        for server in servers:
            server.terminate()
            server.wait()
        if linux:
            linux.end()
        shutil.rmtree(WORK, ignore_errors=True)
    print(f"{count} tried, {failed} failed")
    return 1 if failed or count == 0 else 0


sys.exit(main())
