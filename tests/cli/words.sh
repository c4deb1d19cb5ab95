#!/bin/bash
# help, lists and the version
# shellcheck source=tests/cli/lib.sh
. "$(dirname "$0")/lib.sh"

t help 0 help
t help-bead 0 help bead
t help-cautions 0 help cautions
t help-program 0 --help
t help-advise 0 advise --help
t list 0 list
t template-trip 0 list --template trip
# what refills taught is listed, and forgotten when asked
mkdir -p "$work/home/.local/state/sandshoe"
printf 'mine twin-12v\t-0.105360516\t0.05\t293.15\t101325\n' > "$work/home/.local/state/sandshoe/learned"
holds learned "1 refill, gave 9" list
t forget 0 list --forget
holds forgotten "nothing yet" list
holds version "sandshoe " --version
for topic in job speed load air card low wheel cold units trust; do
    run help "$topic" || fail "help $topic"
    ran=$((ran + 1))
done
# no line of any report is wider than the terminal
for ground in dune-sand bog rock-steps loose-snow; do
    for rig in flatbed-cabin touring-wagon expedition-truck rock-buggy; do
        for job in advise down up; do
            run "$job" "$rig" --ground "$ground" --units kpa || true
            ran=$((ran + 1))
            awk 'length > 80 { exit 1 }' "$work/out" || fail "$job $rig $ground: wider than 80"
            LC_ALL=C grep -q '[^ -~]' "$work/out" && fail "$job $rig $ground: not plain"
        done
    done
done
finish
