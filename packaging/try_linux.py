"""A Linux archive used in a bare root folder, in a terminal of its own: try_linux.py ARCHIVE ROOT REFERENCE ARCHITECTURE.

Prints a row for each trial (what, seconds, verdict), the files that were opened outside of what the README names, and how many failed.
"""

import array
import os
import pathlib
import re
import shutil
import subprocess
import sys
import tarfile
import time
import wave

PASS = ["--elements", "/reference/satellites.tle", "--satellite", "99129", "--station", "47.8,11.2,520", "--at", "2026-11-26T17:50:30Z"]
SOCKET = f"try-{os.getpid()}"
PORT = str(20000 + os.getpid() % 20000)

# What the README says that a start opens beside the archive, its sessions and the settings: the system's own libraries and terminal descriptions, facts about processor and memory, time zone; which and bash, which the terminal library asks what system this is.
NAMED = re.compile(
    r"^(/(usr/)?lib(64)?/|/etc/(ld\.so\.|localtime|passwd|nsswitch\.conf|terminfo)|/usr/share/(terminfo|zoneinfo|locale)|/proc/|/sys/|/dev/(tty|null|urandom|pts/)|/(usr/)?bin/(which|bash|sh|dash)$|/home/me/\.(config|local|cache)/)")


class Trial:
    def __init__(self, root: pathlib.Path, program: str, patience: float) -> None:
        self.root, self.program, self.patience = root, program, patience
        self.ran = self.failed = 0

    def words(self, *more: str) -> list[str]:
        environment = ["env", "-i", "HOME=/home/me", "PATH=/usr/bin:/bin", "TERM=xterm-256color", "LANG=C.UTF-8"]
        return [*environment, shutil.which("chroot") or "/usr/sbin/chroot", str(self.root), self.program, *more]

    def say(self, what: str, seconds: float, good: bool, found: str) -> None:
        self.ran += 1
        self.failed += not good
        print(f"{'ok    ' if good else 'FAILED'} {what:<34} {seconds:6.2f} s  {found}", flush=True)

    def run(self, what: str, expected: str, *more: str, code: int = 0) -> str:
        began = time.monotonic()
        done = subprocess.run(self.words(*more), capture_output=True, text=True, timeout=100 * self.patience, stdin=subprocess.DEVNULL)
        told = done.stdout + done.stderr
        hit = re.search(expected, told)
        good = done.returncode == code and hit is not None
        self.say(what, time.monotonic() - began, good, hit.group(0).strip()[:90] if good and hit else f"exit {done.returncode}: {told.strip()[-300:]}")
        return done.stdout

    def looked_at(self, what: str, words: list[str]) -> None:
        done = subprocess.run(words, capture_output=True, text=True)
        told = (done.stdout + done.stderr).strip()
        self.say(what, 0, done.returncode == 0 and not told, told[-200:] or "nothing to say")

    def screen(self, what: str, steps: list[tuple[str, str]], *more: str, leave: str = "qq") -> None:
        """Starts it in a terminal of 120x40; each step is what must appear and the keys that are typed then. The time is that to the first of them."""
        began = time.monotonic()
        tmux("new-session", "-d", "-x", "120", "-y", "40", *self.words(*more), ";", "set", "remain-on-exit", "on")
        first, good, text, seen = 0.0, True, "", ""
        try:
            for expected, keys in steps:
                limit = time.monotonic() + 20 * self.patience
                while not (hit := re.search(expected, text := tmux("capture-pane", "-p"))) and time.monotonic() < limit:
                    time.sleep(0.01)
                first = first or time.monotonic() - began
                good = good and hit is not None
                if hit is None:
                    break
                seen = text[:hit.end()].split("\n")[-1] + text[hit.end():].split("\n")[0]
                for key in keys.split():
                    tmux("send-keys", key)
                    time.sleep(0.3)
            shown = " ".join(seen.split())[:90] if good else f"{steps!r} not seen in:\n{text}"
            for key in leave:
                tmux("send-keys", key)
                time.sleep(0.3)
            limit = time.monotonic() + 10 * self.patience
            while not re.search(r"dead \S", ended := tmux("list-panes", "-F", "#{?pane_dead,dead #{pane_dead_status}#{pane_dead_signal},alive}")) and time.monotonic() < limit:
                time.sleep(0.05)
            if ended.strip() != "dead 0":
                good, shown = False, f"it did not leave well: {ended.strip()}\n{tmux('capture-pane', '-p')}"
        finally:
            tmux("kill-server")
        self.say(what, first, good, shown)


def tmux(*words: str) -> str:
    return subprocess.run(["tmux", "-u", "-L", SOCKET, "-f", "/dev/null", *words], capture_output=True, text=True, env={**os.environ, "LC_ALL": "C.UTF-8"}).stdout


def loudest(sound: pathlib.Path) -> tuple[int, float]:
    with wave.open(str(sound)) as file:
        samples = array.array("h", file.readframes(file.getnframes()))
        return max(map(abs, samples), default=0), file.getnframes() / file.getframerate()


def opened(trial: Trial) -> tuple[list[str], list[str]]:
    """Every file that a start with the screen opens outside of the archive, and every program that it runs: what the README names, and the others."""
    log = trial.root.parent / f"{SOCKET}.strace"
    tmux("new-session", "-d", "-x", "120", "-y", "40", "strace", "-f", "-o", str(log), "-e", "trace=open,openat,execve", *trial.words("--sessions", "/home/me/s"))
    limit = time.monotonic() + 60
    while "TCA in" not in tmux("capture-pane", "-p") and time.monotonic() < limit:
        time.sleep(0.1)
    time.sleep(3)
    for _ in range(2):
        tmux("send-keys", "q")
        time.sleep(1)
    tmux("kill-server")
    lines = log.read_text(errors="replace").splitlines()
    log.unlink()
    begin = next(i for i, line in enumerate(lines) if f'execve("{trial.program}"' in line)
    folder = os.path.dirname(trial.program)
    named, others = set(), set()
    for line in lines[begin + 1:]:
        for path in re.findall(r'"(/[^"]*)"', line.partition(" = -1")[0] if "execve" not in line else line.split(",")[0]):
            if " = -1 " not in line and not path.startswith((folder, "/home/me/s/")) and path != "/home/me/s":
                (named if NAMED.match(path) else others).add(path)
    return sorted(named), sorted(others)


def main() -> None:
    archive, bare, reference = map(pathlib.Path, sys.argv[1:4])
    root = bare
    shutil.rmtree(root / "home/me", ignore_errors=True)
    shutil.rmtree(root / "opt/try", ignore_errors=True)
    shutil.rmtree(root / "reference", ignore_errors=True)
    (root / "home/me").mkdir(parents=True)
    (root / "opt/try").mkdir(parents=True)
    shutil.copytree(reference, root / "reference")
    with tarfile.open(archive) as tar:
        tar.extractall(root / "opt/try", filter="tar") if hasattr(tarfile, "tar_filter") else tar.extractall(root / "opt/try")
    folder = next((root / "opt/try").iterdir()).name
    version = folder.split("-")[1]
    emulated = sys.argv[4] != "amd64"
    trial = Trial(root, f"/opt/try/{folder}/cockpit", 20 if emulated else 1)
    sample = f"/opt/try/{folder}/sessions/sample-bad-pass"
    print(f"{archive.name}: {archive.stat().st_size / 1e6:.1f} MB, unpacked {sum(f.stat().st_size for f in (root / 'opt/try').rglob('*') if f.is_file()) / 1e6:.1f} MB")

    trial.run("--version", rf"^{re.escape(version)}\+[0-9a-f]{{40}}", "--version")
    trial.run("--version again", rf"^{re.escape(version)}", "--version")
    trial.screen("demo, to its first picture", [(r"TCA in", "Space"), (r"PETREL 2", "")])
    trial.screen("demo again", [(r"TCA in", "")])
    trial.run("passes", r"(?m)^ *go: .*$", "passes", *PASS[:2], "--station", PASS[5], "--from", "2026-11-26T12:00:00Z", "--for", "24h")
    trial.run("tonight", r"(?i)(?m)^.*az.*$", "tonight", *PASS[:2], "--station", PASS[5], "--from", "2026-11-26T12:00:00Z")
    sender = subprocess.Popen(trial.words("simulate", "signal", "--listen", f"tcp://127.0.0.1:{PORT}", *PASS), stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    try:
        trial.screen("live with a signal", [(r"locked", "Space"), (r"●\s*signal\s+\d+ records", "")], "live", *PASS, "--signal", f"tcp://127.0.0.1:{PORT}", "--sessions", "/home/me/flown")
        trial.run("live --plain with a signal", r"(?m)^.*dB.*$", "live", *PASS, "--signal", f"tcp://127.0.0.1:{PORT}", "--sessions", "/home/me/flown", "--plain", "--sound", "wav:/home/me/pass.wav", "--stop-after", "12s")
    finally:
        sender.kill()
        sender.wait()
    peak, seconds = loudest(root / "home/me/pass.wav")
    trial.say("its sound", 0, peak > 1000 and 8 < seconds < 16, f"{seconds:.1f} s, loudest sample {peak} of 32767")
    trial.screen("replay", [(r"FENHERON|PETREL|BRACKWING", "Space"), (r"(?i)paus", "")], "replay", sample, leave="q")
    trial.run("replay --text", r"(?m)^.*az.*$", "replay", sample, "--text", "05:30")
    trial.run("review", r"(?m)^advice .*$", "review", sample)
    trial.run("review --page", r"lines +\d+ received[^\n]*", "review", sample, "--page", "/home/me/pass.html")
    page = (root / "home/me/pass.html").read_text(encoding="utf-8")
    trial.say("its page", 0, page.startswith("<!DOCTYPE html>") and page.rstrip().endswith("</html>") and "<svg" in page, f"{len(page)} characters")
    trial.run("review --pictures", r"lines +\d+ received[^\n]*", "review", sample, "--pictures", "/home/me/pictures")
    pictures = list((root / "home/me/pictures").glob("*.png"))
    trial.say("its pictures", 0, len(pictures) > 2 and all(one.read_bytes().startswith(b"\x89PNG") for one in pictures), f"{len(pictures)} PNG files")
    trial.run("check reference", r"\d+ comparisons, 0 outside their tolerance", "check", "reference", "/reference")
    trial.run("check session", r"(?m)^digest [0-9a-f]{32} .*$", "check", "session", sample)
    trial.run("sessions", r"(?m)^.*PETREL 2.*$", "sessions", "--sessions", os.path.dirname(sample))
    trial.run("a secure page without OpenSSL", r"https needs OpenSSL[^\n]*", "live", *PASS, "--signal", "https://127.0.0.1:1/x", "--plain", code=2)
    trial.run("a phone without OpenSSL", r"https needs OpenSSL[^\n]*", "live", *PASS, "--phone", "127.0.0.1", "--plain", code=2)
    trial.run("elements from a secure address", r"https needs OpenSSL[^\n]*", "elements", "update", "--address", "https://127.0.0.1:1/x", code=1)
    trial.run("manual", r"\.TH COCKPIT 1[^\n]*|\.Dd [^\n]*", "manual")

    share = root / "opt/try" / folder / "share"
    trial.looked_at("manual page, by mandoc", ["mandoc", "-T", "lint", "-W", "warning", str(share / "man/man1/cockpit.1")])
    trial.looked_at("desktop entry, by its validator", ["desktop-file-validate", "--no-hints", str(share / "applications/cockpit.desktop")])
    if emulated:
        print("run by an emulator: times say nothing about a real machine, and the files that the emulator opens are no concern of ours")
    named, others = ([], []) if emulated else opened(trial)
    if not emulated:
        trial.say("files opened outside the archive", 0, bool(named) and not others, f"{len(named)} that the README names; others: {', '.join(others) or 'none'}")
    for path in named:
        print(f"       {path}")
    print(f"{trial.ran} tried, {trial.failed} failed")
    sys.exit(1 if trial.failed else 0)


if __name__ == "__main__":
    main()
