#!/bin/bash
# letting down and filling
# shellcheck source=tests/cli/lib.sh
. "$(dirname "$0")/lib.sh"

t down-dune 0 down flatbed-cabin --ground dune-sand
t down-warm-json 0 down flatbed-cabin --ground dune-sand --tyre-temp 40C --json
t down-part 0 down light-wagon --ground damp-sand --from front=20psi,rear=12psi
t down-refused 4 down flatbed-cabin --ground dune-sand --set rear.axle_load=3100kg --json
t up-cabin 0 up flatbed-cabin --ground dune-sand --tyre-temp 40C
t up-bare 0 up flatbed-bare --ground dune-sand
t up-default-json 0 up flatbed-cabin --json
t up-working 0 up light-wagon --from 14psi --working
t up-part 0 up touring-wagon --ground dune-sand --to corrugated-road
t up-pressure 0 up light-wagon --from 14psi --to 22psi
t up-nothing 0 up light-wagon --from 30psi --to 22psi
t up-weak 0 up flatbed-cabin --set "air.cut_out=40 psi" --ground dune-sand

t up-rest 0 up expedition-truck --set air.compressor=portable-12v --set air.hookup=single
t up-rest-json 0 up touring-wagon --set "air.compressor=portable-12v" --json

# above the moulded maximum is said, and told by the status
t up-too-far 1 up flatbed-cabin --from 30psi --to 70psi

# a tyre found low gets no steps, the others do; a wheel in pieces none at all
t up-found-low 4 up flatbed-cabin --ground dune-sand --found-low rear-right
t up-found-low-json 4 up flatbed-cabin --ground dune-sand --found-low rear-right --json
t up-far-under 4 up flatbed-cabin --from front=34psi,rear=33psi,rear-right=11psi
t up-multi-piece 4 up expedition-truck --set rear.wheel=multi-piece
t up-multi-piece-json 4 up expedition-truck --set rear.wheel=multi-piece --json
finish
