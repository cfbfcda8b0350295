"""What can be heard in the sound of a session: heard.py FILE.wav LINES [--speed N].

LINES are those of `cockpit live --plain`, of a session with N seconds for each real one; sound and lines end at the same moment. Where a line
begins to say MOVE there must be notes within three seconds, and most of the time silence. Prints a line for each word; the last says how many
were heard. The exit code is 1 where one is missing.
"""

import array
import math
import re
import sys
import wave

STEP = 0.02         # seconds of a block
LOUD = 10 ** -2.5   # of full scale: a tone, however soft; what is not sounded is zero
WORD = (300, 1400)  # Hz: where the notes of a word for a move lie
LATE = 3.0          # seconds within which a word that is called is heard


def blocks(path):
    """Peak of each block of both ears, and the samples of the louder ear."""
    with wave.open(path) as file:
        assert file.getsampwidth() == 2, "16 bits wanted"
        ears, rate = file.getnchannels(), file.getframerate()
        samples = array.array("h", file.readframes(file.getnframes()))
    length = int(rate * STEP) * ears
    parts = [samples[i:i + length] for i in range(0, len(samples), length)]
    return rate, ears, parts, [max((abs(v) for v in part), default=0) / 32768 for part in parts]


def pitch(part, ears, rate):
    """Frequency of a block by its zero crossings, Hz, of the louder ear."""
    ear = max((part[k::ears] for k in range(ears)), key=lambda one: sum(abs(v) for v in one))
    crossings = sum(1 for a, b in zip(ear, ear[1:]) if (a < 0) != (b < 0))
    return crossings * rate / (2 * len(ear)) if len(ear) else math.nan


def seconds(line):
    found = re.match(r"(\d\d):(\d\d):(\d\d)Z .*?\| (\w+)", line)
    return found and (int(found[1]) * 3600 + int(found[2]) * 60 + int(found[3]), found[4])


def main(path, log, speed):
    rate, ears, parts, peaks = blocks(path)
    told = [found for found in map(seconds, open(log, encoding="utf-8", errors="replace")) if found]
    if not told:
        print("no lines to compare with")
        return 1
    begins = [now for (_, before), now in zip(told, told[1:]) if now[1] == "MOVE" and before != "MOVE"]
    begins = [one for one in begins if (told[-1][0] - one[0]) / speed > LATE]
    missing = 0
    for instant, _ in begins:
        at = len(peaks) - int((told[-1][0] - instant) / speed / STEP)
        near = [i for i in range(max(0, at - int(1 / STEP)), min(len(peaks), at + int(LATE / STEP))) if peaks[i] > LOUD]
        pitches = sorted(pitch(parts[i], ears, rate) for i in near)
        middle = pitches[len(pitches) // 2] if pitches else 0
        fine = bool(near) and WORD[0] < middle < WORD[1]
        missing += not fine
        print(f"{instant - told[0][0]:4} s of the pass: {len(near) * STEP:.2f} s of tones, middle {middle:.0f} Hz" + ("" if fine else ": MISSING"))
    loud = sum(peak > LOUD for peak in peaks) / max(1, len(peaks))
    print(f"{len(peaks) * STEP:.1f} s, peak {20 * math.log10(max(max(peaks, default=0), 1e-5)):.1f} dB, tones in {loud:.0%}, {len(begins) - missing} of {len(begins)} words heard")
    return 0 if begins and not missing and 0.01 < loud < 0.7 else 1


if __name__ == "__main__":
    words = sys.argv[1:]
    speed = float(words[words.index("--speed") + 1]) if "--speed" in words else 1.0
    sys.exit(main(words[0], words[1], speed))
