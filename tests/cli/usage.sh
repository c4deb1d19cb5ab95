#!/bin/bash
# mistakes on the command line: all at once, with a way out
# shellcheck source=tests/cli/lib.sh
. "$(dirname "$0")/lib.sh"

t usage-command 2 advize flatbed-cabin
t usage-option 2 advise flatbed-cabin --grund dune-sand
t usage-many 2 advise flatbed-cabin --at-temp 24 --at-pressure 18 --speed 30kph --units stone
t usage-comma 2 advise flatbed-cabin --ground dune-sand --at-temp 24,5C
t usage-range 2 advise flatbed-cabin --ground dune-sand --at-height 20000m --tyre-temp 400C \
    --at-pressure 0psi --speed 3000km/h
t usage-value 2 advise flatbed-cabin --ground
t usage-not-here 2 check flatbed-cabin --speed 30km/h
t usage-no-rig 2 advise --ground dune-sand
t usage-both 2 advise flatbed-cabin --tyre 265/70R17 --front 1t --rear 1t --ground dune-sand
t usage-no-ground 2 advise flatbed-cabin
t usage-ground 2 advise flatbed-cabin --ground dunesand
t usage-size 2 advise --tyre 35x12.5R --front 1t --rear 1t --ground dune-sand
t usage-axle 2 advise flatbed-cabin --ground dune-sand --at-pressure frnt=18psi
t usage-corner 2 up flatbed-cabin --found-low left-rear
t usage-slope 2 advise --tyre 265/70R17 --front 1t --rear 1t --ground stony-track \
    --cross-slope 10deg
t usage-to 2 up flatbed-cabin --to 45
t usage-topic 2 help beed
t usage-template 2 list --template lorry
t usage-empty 2 up flatbed-cabin --from= --found-low "" --to ""
t usage-twice 2 up flatbed-cabin --from front=18psi,front-left=17psi,front=20psi
t usage-list-end 2 up flatbed-cabin --from front=18psi,
t usage-no-trailer 2 up flatbed-cabin --found-low trailer
t usage-no-middle 2 advise flatbed-cabin --ground dune-sand --at-pressure 18psi,middle=20psi
t usage-road 2 advise flatbed-cabin --ground dune-sand --road 38psi
t usage-rear-size 2 advise --tyre 265/70R17 --rear-tyre 265 --front 1t --rear 1t --ground dune-sand
t usage-date 2 card flatbed-cabin -o - --date "3 May" --at-height 20000m
t usage-day 2 card flatbed-cabin -o - --date 2026-13-01
t usage-letter 2 advise flatbed-cabin -z
finish
