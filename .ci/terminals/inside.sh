#!/usr/bin/env bash
# Runs in the terminal that is tried: what the line and the terminal are like before and after the program.
# inside.sh FOLDER PROGRAM WORDS...
folder=$1
shift
stty -a >"$folder/before"
stty size >"$folder/size"
echo $$ >"$folder/pid"
"$@" >"$folder/said" 2>&1
echo $? >"$folder/code"
stty -a >"$folder/after"
# What the terminal itself says of its modes (DECRQM): 1 is on, 2 off; some do not answer.
stty -echo -icanon
for mode in 25 1049 1003 2004; do
    printf '\e[?%d$p' "$mode" >/dev/tty
    answer=
    IFS= read -rs -t 0.4 -d y answer </dev/tty || true
    printf '%s %s\n' "$mode" "${answer//[^0-9;]/}"
done >"$folder/modes"
stty echo icanon
touch "$folder/ended"
while [ ! -e "$folder/close" ]; do sleep 0.1; done
