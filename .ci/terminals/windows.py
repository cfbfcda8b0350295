"""Terminals in windows that nobody sees: on an X server without a display, on a Wayland compositor without one."""
import os
import subprocess
import time

FONT = "DejaVu Sans Mono"
NOBODY = 65534


def run(*words, **more):
    return subprocess.run(words, capture_output=True, text=True, check=False, **more).stdout.strip()


def prepared(variables):
    """The environment without what the surroundings say of their own terminal, with what the trial says."""
    kept = {name: value for name, value in os.environ.items() if name not in ("TERM", "COLORTERM", "NO_COLOR", "TMUX", "STY", "LC_ALL", "LC_CTYPE", "TERM_PROGRAM")}
    return {**kept, "LANG": "C.UTF-8", **variables}


class X:
    """A terminal on the X server; its window stands in the upper left corner."""

    KEYS = {"PageDown": "Next", "Shift-Right": "shift+Right", "Ctrl-C": "ctrl+c", "Space": "space"}

    def __init__(self, screen, words, variables):
        self.environment = prepared({"DISPLAY": screen, "LIBGL_ALWAYS_SOFTWARE": "1", **variables})
        self.process = subprocess.Popen(words, env=self.environment, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, start_new_session=True)
        self.window = None

    def find(self):
        for _ in range(300):
            # The windows that are drawn; the root and those of the toolkit are not of this kind.
            found = run("xdotool", "search", "--onlyvisible", "--class", "xterm|kitty|Alacritty", env=self.environment).split()
            if found:
                self.window = found[-1]
                run("xdotool", "windowmove", self.window, "0", "0", "windowfocus", self.window, env=self.environment)
                return
            time.sleep(0.1)
        raise RuntimeError("no window came")

    def size(self):
        place = dict(line.split("=") for line in run("xdotool", "getwindowgeometry", "--shell", self.window, env=self.environment).splitlines())
        return int(place["WIDTH"]), int(place["HEIGHT"])

    def keys(self, names):
        run("xdotool", "key", "--delay", "120", *[self.KEYS.get(name, name) for name in names], env=self.environment)

    def resize(self, width, height):
        run("xdotool", "windowsize", self.window, str(width), str(height), env=self.environment)

    def shoot(self, path):
        width, height = self.size()
        run("import", "-window", "root", "-crop", f"{width}x{height}+0+0", "+repage", path, env=self.environment)

    def end(self):
        os.killpg(self.process.pid, 15)
        self.process.wait()


class Sway:
    """A terminal on the Wayland compositor, which does not run for the administrator."""

    KEYS = {"Space": ["-k", "space"], "PageDown": ["-k", "Next"], "Shift-Right": ["-M", "shift", "-k", "Right", "-m", "shift"], "Ctrl-C": ["-M", "ctrl", "c", "-m", "ctrl"]}

    def __init__(self, runtime, words, variables):
        self.environment = prepared({"XDG_RUNTIME_DIR": runtime, "WAYLAND_DISPLAY": "wayland-1", "SWAYSOCK": os.path.join(runtime, "sway.sock"), **variables})
        self.process = subprocess.Popen(words, env=self.environment, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, start_new_session=True, **nobody())

    def find(self):
        for _ in range(300):
            if '"foot"' in run("swaymsg", "-t", "get_tree", env=self.environment):
                return
            time.sleep(0.1)
        raise RuntimeError("no window came")

    def size(self):
        import json

        def inner(node):
            if node.get("app_id") == "foot":
                return node["rect"]["width"], node["rect"]["height"]
            return next((found for child in node["nodes"] + node["floating_nodes"] if (found := inner(child))), None)

        return inner(json.loads(run("swaymsg", "-t", "get_tree", env=self.environment)))

    def keys(self, names):
        # All by one keyboard: a key right after another keyboard's came may be lost.
        words = ["-s", "200"]
        for name in names:
            words += [*self.KEYS.get(name, ["-k", name] if len(name) > 1 else [name]), "-s", "150"]
        run("wtype", *words, env=self.environment)

    def resize(self, width, height):
        run("swaymsg", f"[app_id=foot] resize set width {width} px height {height} px, move absolute position 0 0", env=self.environment)

    def shoot(self, path):
        width, height = self.size()
        run("grim", "-g", f"0,0 {width}x{height}", path, env=self.environment)

    def end(self):
        os.killpg(self.process.pid, 15)
        self.process.wait()


def nobody():
    """What a process has to be started with that does not run for the administrator."""
    return {"user": NOBODY, "group": NOBODY, "extra_groups": []} if os.geteuid() == 0 else {}
