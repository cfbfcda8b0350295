"""The Linux console: a virtual machine with a kernel of the distribution, the program and nothing else, in the kernel's own text mode."""
import glob
import json
import os
import re
import shutil
import socket
import subprocess
import time

import picture

KEYS = {"Space": "spc", "Home": "home", "PageDown": "pgdn", "Left": "left", "Up": "up", "Shift-Right": "shift-right", "Ctrl-C": "ctrl-c"}
# The cells of the band are filled blanks; the last three rows change.
COLUMNS, ROWS, BAND, CHANGING, MOMENT = 80, 25, 5, 3, "02:00"

INIT = """#!/bin/busybox sh
/bin/busybox mkdir -p /proc /sys /tmp /home /bin
/bin/busybox --install -s /bin
mount -t devtmpfs none /dev; mount -t proc none /proc; mount -t sysfs none /sys
export HOME=/home LANG=C.UTF-8 TERM=linux PATH=/bin
exec setsid sh -c 'exec sh /script </dev/tty1 >/dev/tty1 2>&1'
"""

SCRIPT = """
say() { echo "$@" >/dev/ttyS0; }
visit() {
    name=$1; shift
    stty -a >/tmp/before
    say "BEGIN $name"
    /program/cockpit "$@" --sound off --sessions /tmp/sessions >/tmp/said 2>&1
    code=$?
    stty -a >/tmp/after
    cmp -s /tmp/before /tmp/after && line=same || line=other
    grep -s -h -o '"type":"head.turned/1","data":{[^}]*}' /tmp/sessions/*/session.jsonl >/dev/ttyS0
    grep 'first paint' /tmp/said >/dev/ttyS0
    [ "$line" = same ] && [ "$code" != 2 ] || head -n 3 /tmp/said >/dev/ttyS0
    say "END $name $code $line $(tr -d ' \\n\\000' </dev/vcs1 | wc -c) left"
    rm -rf /tmp/sessions
}
(while :; do { echo SCREEN; fold -w 80 </dev/vcs1; echo; echo NEERCS; } >/dev/ttyS0; sleep 2; done) &
visit replay replay /session
visit rehearse rehearse --seed 5 --measure
(sleep 8; killall -TERM cockpit) &
visit demo
say ALL
sleep 1000
"""


class Machine:
    """Starts at once, so that it is ready when it is its turn."""

    def __init__(self, program, out, repository, work):
        self.program, self.out, self.repository, self.work = program, out, repository, work
        self.serial, self.control = os.path.join(work, "serial"), os.path.join(work, "control")
        kernel = self.kernel()
        self.version = re.sub(r".*vmlinuz-([0-9.]+).*", r"\1", kernel)
        self.process = subprocess.Popen(
            ["qemu-system-x86_64", "-accel", "tcg", "-m", "512", "-display", "none", "-vga", "std", "-no-reboot", "-kernel", kernel, "-initrd", self.files(),
             "-append", "quiet console=ttyS0 console=tty1", "-serial", f"file:{self.serial}", "-monitor", f"unix:{self.control},server,nowait"],
            stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)

    def kernel(self):
        """Fetched once, and kept beside the pictures."""
        kept = os.path.join(self.out, "kernel")
        if not glob.glob(os.path.join(kept, "boot", "vmlinuz-*")):
            depends = subprocess.run(["apt-cache", "depends", "linux-image-amd64"], capture_output=True, text=True, check=True).stdout
            name = re.search(r"Depends: (linux-image-6\S+)", depends).group(1)
            subprocess.run(["apt-get", "download", "-qq", name], cwd=self.work, check=True, stderr=subprocess.DEVNULL)
            subprocess.run(["dpkg", "-x", *glob.glob(os.path.join(self.work, name + "*.deb")), os.path.join(self.work, "deb")], check=True)
            os.makedirs(os.path.join(kept, "boot"))
            for file in glob.glob(os.path.join(self.work, "deb", "boot", "vmlinuz-*")):
                shutil.copy(file, os.path.join(kept, "boot"))
        return glob.glob(os.path.join(kept, "boot", "vmlinuz-*"))[0]

    def files(self):
        root = os.path.join(self.work, "root")
        os.makedirs(os.path.join(root, "bin"))
        os.makedirs(os.path.join(root, "dev"))
        shutil.copy(shutil.which("busybox"), os.path.join(root, "bin", "busybox"))
        shutil.copytree(os.path.join(self.repository, "sessions", "sample-bad-pass"), os.path.join(root, "session"))
        shutil.copytree(os.path.join(self.repository, "themes"), os.path.join(root, "program", "themes"))
        shutil.copy(self.program, os.path.join(root, "program", "cockpit"))
        libraries = re.findall(r"(/\S+) \(0x", subprocess.run(["ldd", self.program], capture_output=True, text=True, check=True).stdout)
        for library in [*libraries, *glob.glob("/usr/lib/locale/C.utf8")]:
            place = root + library
            os.makedirs(os.path.dirname(place), exist_ok=True)
            (shutil.copytree if os.path.isdir(library) else shutil.copy)(library, place)
        for name, text in (("init", INIT), ("script", SCRIPT)):
            with open(os.path.join(root, name), "w", encoding="utf-8") as file:
                file.write(text)
            os.chmod(os.path.join(root, name), 0o755)
        archive = os.path.join(self.work, "files.gz")
        subprocess.run(f"find . | cpio -o -H newc 2>/dev/null | gzip -1 >{archive}", shell=True, cwd=root, check=True)
        return archive

    def ask(self, *commands):
        with socket.socket(socket.AF_UNIX) as line:
            line.connect(self.control)
            line.settimeout(0.3)
            for command in commands:
                line.sendall(command.encode() + b"\n")
                try:
                    while line.recv(65536):
                        pass
                except TimeoutError:
                    pass

    def keys(self, *names):
        self.ask(*[f"sendkey {KEYS.get(name, name)}" for name in names])

    def told(self):
        if not os.path.exists(self.serial):
            return ""
        with open(self.serial, encoding="utf-8", errors="replace") as file:
            return file.read()

    def letters(self):
        """What the kernel says stands on the screen."""
        screens = re.findall(r"SCREEN\r?\n(.*?)NEERCS", self.told(), re.S)
        return [line.rstrip() for line in screens[-1].splitlines()] if screens else []

    @staticmethod
    def so(judge, seconds=90.0):
        """Whether something becomes so in this time."""
        end = time.monotonic() + seconds
        while not judge():
            if time.monotonic() > end:
                return False
            time.sleep(0.3)
        return True

    def until(self, judge, sentence):
        if not self.so(judge):
            raise RuntimeError(sentence)

    def grid(self, name):
        path = os.path.join(self.work, "console.ppm")
        for attempt in range(10):
            self.ask(f"screendump {path}")
            try:
                picture.Image.open(path).save(os.path.join(self.out, f"linux-console-{name}.png"))
                return picture.cells(path, COLUMNS, ROWS)
            except OSError:
                # The machine has not written all of it yet.
                time.sleep(0.5 + attempt / 4)
        raise RuntimeError("the machine gives no picture of its screen")

    def begun(self, name):
        self.until(lambda: f"BEGIN {name}" in self.told(), f"{name} did not begin")
        self.until(lambda: f"END {name} " in self.told() or picture.ink(self.grid(name)) > 400, f"{name}: nothing was painted")

    def ended(self, name, code):
        self.until(lambda: f"END {name} " in self.told(), f"{name} did not end")
        end = re.search(f"END {name} (\\d+) (\\w+) (\\d+) left", self.told())
        if end.groups() != (str(code), "same", "0"):
            raise RuntimeError(f"{name} ended with {end.group(1)}, the line is the {end.group(2)}, {end.group(3)} letters are left on the screen")

    def tried(self):
        self.begun("replay")
        self.keys("Space")
        text = [self.program, "replay", os.path.join(self.repository, "sessions", "sample-bad-pass"), "--text", MOMENT, "--size", f"{COLUMNS}x{ROWS}", "--drawing", "ascii"]
        expected = subprocess.run(text, capture_output=True, text=True, check=True).stdout.splitlines()[1:]
        rows = ROWS - CHANGING
        for _ in range(3):
            self.keys("Home", *["PageDown"] * 2)
            if self.so(lambda: self.letters()[BAND:rows] == expected[BAND:rows], 30.0):
                break
        else:
            raise RuntimeError("the letters on the screen are not those of the page")

        self.grid("replay")
        colours = picture.colours(os.path.join(self.work, "console.ppm"), os.path.join(self.repository, "themes", "dusk.json"))
        self.keys("n")
        time.sleep(1.0)
        self.grid("night")
        self.keys("q")
        self.ended("replay", 0)
        self.begun("rehearse")
        self.keys("Left", "Up", "Shift-Right", "Space")
        time.sleep(1.0)
        self.keys("Ctrl-C")
        self.ended("rehearse", 0)
        turned = [json.loads(found) for found in re.findall(r'"head.turned/1","data":({[^}]*})', self.told())]
        moves = [(round(one["pan_rad"] * 57.29578), round(one["tilt_rad"] * 57.29578)) for one in turned]
        if moves not in ([(-1, 0), (0, 1), (5, 0)], [(-1, 0), (0, 1), (1, 0)]):
            raise RuntimeError(f"the keys turned the dish by {moves}")
        self.begun("demo")
        time.sleep(2.0)
        self.grid("demo")
        self.ended("demo", 143)
        shift = "" if moves[2] == (5, 0) else ", Shift and arrow is the arrow alone"
        return f"{colours:12} {'ascii':8} first paint {'in a virtual machine'}{shift}"

    def end(self):
        self.process.terminate()
        self.process.wait()
