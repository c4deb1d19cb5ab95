#!/bin/bash
# the main job: text, JSON, working, the driver's own pressures, refusals
# shellcheck source=tests/cli/lib.sh
. "$(dirname "$0")/lib.sh"

t advise-dune 0 advise flatbed-cabin --ground dune-sand
t advise-bare-rock 0 advise flatbed-bare --ground rock-steps
t advise-truck-bar 0 advise expedition-truck --ground damp-sand
t advise-trailer 0 advise touring-wagon --ground corrugated-road --at-temp 31C --at-height 900m
t advise-beadlock 0 advise rock-buggy --ground rock-steps
t advise-sealed 0 advise light-wagon --ground sealed-road
t advise-warm 0 advise flatbed-cabin --ground dune-sand --tyre-temp 40C --at-height 1200m
t advise-bar 0 advise flatbed-cabin --ground dune-sand --units bar
t advise-ice 0 advise light-wagon --ground packed-snow --set rear.left_share=58%
t advise-json 0 advise flatbed-cabin --ground dune-sand --json
t advise-working 0 advise light-wagon --ground bog --working

# soil is spoken of in kPa beside a gauge in bar
holds working-kpa "CI = 220.6 kPa, strength of the ground" \
    advise flatbed-cabin --ground dune-sand --units bar --working
holds working-mmp "MMP = 275.6 kPa, mean maximum pressure, worst axle" \
    advise flatbed-cabin --ground dune-sand --units bar --working
t advise-quick 0 advise --tyre "35x12.50R17LT 121 E" --front 1950kg --rear 2350kg \
    --road front=38psi,rear=48psi --ground dune-sand
t advise-quick-assumed 0 advise --tyre 265/70R17 --front 1300kg --rear 1500kg --ground dry-sand

# a danger of these inputs
t advise-speed 1 advise flatbed-cabin --ground dune-sand --speed 60km/h
t advise-rim 1 advise flatbed-cabin --ground dune-sand --set "front.rim_width=7 in"
t advise-yours 0 advise flatbed-cabin --ground dune-sand --at-pressure front=20psi,rear=24psi
t advise-yours-low 1 advise flatbed-cabin --ground dune-sand --at-pressure front=13psi

# refusals
t advise-overload 4 advise flatbed-cabin --ground dune-sand --set rear.axle_load=3100kg
t advise-overload-json 4 advise flatbed-cabin --ground dune-sand --json \
    --set "rear.axle_load=3100 kg"
t advise-yours-refused 4 advise flatbed-cabin --ground dune-sand --at-pressure 8psi
t advise-multi-piece 4 advise expedition-truck --ground bog --set rear.wheel=multi-piece
t advise-tips 4 advise flatbed-cabin --ground stony-track --cross-slope 32deg
finish
