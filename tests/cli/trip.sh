#!/bin/bash
# the plan for a route: shipped trips, warnings, refusals, mistakes, the card
# shellcheck source=tests/cli/lib.sh
. "$(dirname "$0")/lib.sh"

t trip-dune-crossing 0 trip dune-crossing
t trip-corrugated-spur 0 trip corrugated-spur
t trip-high-pass 0 trip high-pass
t trip-bar 0 trip dune-crossing --units bar
t trip-json 0 trip corrugated-spur --json
t trip-working 0 trip high-pass --working

# warned of before the drop; no stop before the road; air that cannot
t trip-top-drop 1 trip "$root/tests/data/trips/top-drop.ini"
t trip-no-stop 1 trip "$root/tests/data/trips/no-stop.ini"
t trip-weak 1 trip dune-crossing --set "air.cut_out=30 psi"
t trip-rests 0 trip dune-crossing --set air.hookup=single --set "air.flow=0 psi 40 L/min, 60 psi 20 L/min"

# refused, wrong, not there
t trip-overload 4 trip dune-crossing --set rear.axle_load=3100kg
t trip-overload-json 4 trip dune-crossing --set rear.axle_load=3100kg --json
t trip-mistakes 3 trip "$root/tests/data/mistakes/trip.ini"
t trip-mistakes-json 3 trip "$root/tests/data/mistakes/trip.ini" --json
t trip-none 5 trip dune-crosing
t trip-bad-set 3 trip dune-crossing --set rear.axle_load=3100

# its card
t trip-card 0 trip dune-crossing -o - --date 2026-05-02
t trip-card-dated 1 trip "$root/tests/data/trips/top-drop.ini" -o - --size a6
t trip-card-no-stop 1 trip "$root/tests/data/trips/no-stop.ini" -o - --date 2026-05-02
t trip-card-weak 1 trip dune-crossing --set "air.cut_out=30 psi" -o - --date 2026-05-02
finish
