#!/usr/bin/env python3
"""Speak a walk-around from text into a recording, with a light wind behind it.

usage: speak.py TEXT.txt OUT.flac [--wind DB] [--seed N]

The text is spoken sentence by sentence with a breath after each; an empty line in the text is a corner of
the house, where the walker takes some steps. The wind lies DB decibels below the voice. The result is
16 kHz, mono, 16 bit, in the format that OUT's ending names. Same text and seed, same recording.

Needs Debian's sox, and hibari-tts 0.2.1 from PyPI in the running Python.
"""
import argparse
import pathlib
import random
import re
import subprocess
import tempfile
import wave

import numpy
from hibari import Hibari

VOICE_RATE = 24_000  # what the voice gives, in samples a second
BREATH = (0.35, 0.9)  # seconds after a sentence
CORNER = (2.0, 3.5)  # seconds after a paragraph


def main():
    args = arguments()
    dice = random.Random(args.seed)
    sounds = speak(args.text.read_text(), dice)
    spoken = rms(numpy.concatenate([s for s in sounds if s.any()]))
    voice = numpy.concatenate(sounds)
    with tempfile.TemporaryDirectory() as folder:
        clean, wind = f"{folder}/clean.wav", f"{folder}/wind.wav"
        write(clean, voice)
        blow(wind, seconds=len(voice) / VOICE_RATE)
        quieter = spoken / rms(read(wind)) / 10 ** (args.wind / 20)
        sox("-m", "-v", "1", clean, "-v", f"{quieter:.5f}", wind, "-r", "16000", "-b", "16", "-C", "8",
            args.out, "norm", "-3")


def arguments():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("text", type=pathlib.Path)
    parser.add_argument("out")
    parser.add_argument("--wind", type=float, default=17, help="decibels that the wind lies below the voice")
    parser.add_argument("--seed", type=int, default=1)
    return parser.parse_args()


def speak(text, dice):
    """One array for each sentence and each pause, in order."""
    voice = Hibari()
    sounds = []
    for paragraph in re.split(r"\n\s*\n", text.strip()):
        for sentence in re.split(r"(?<=[.?!])\s+", paragraph):
            sounds += [voice(sentence, seed=0, speed=dice.uniform(1.0, 1.12)), pause(BREATH, dice)]
        sounds.append(pause(CORNER, dice))
    return sounds


def pause(bounds, dice):
    return numpy.zeros(int(VOICE_RATE * dice.uniform(*bounds)), dtype="float32")


def blow(path, seconds):
    """Wind: deep and hissing noise together, swelling every five seconds."""
    sox("-n", "-r", VOICE_RATE, "-b", "16", path, "synth", seconds, "brownnoise", "synth", "pinknoise", "mix",
        "tremolo", "0.2", "60", "norm", "-20")


def rms(sound):
    return float(numpy.sqrt(numpy.mean(numpy.square(sound, dtype="float64"))))


def write(path, sound):
    with wave.open(path, "wb") as out:
        out.setnchannels(1)
        out.setsampwidth(2)
        out.setframerate(VOICE_RATE)
        out.writeframes((numpy.clip(sound, -1, 1) * 32767).astype("<i2").tobytes())


def read(path):
    with wave.open(path, "rb") as file:
        return numpy.frombuffer(file.readframes(file.getnframes()), dtype="<i2") / 32767


def sox(*words):
    subprocess.run(["sox", "-R", *map(str, words)], check=True)  # -R: the same noise and dither every time


if __name__ == "__main__":
    main()
