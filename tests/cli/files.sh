#!/bin/bash
# profiles: sound, with mistakes, not there, not readable
# shellcheck source=tests/cli/lib.sh
. "$(dirname "$0")/lib.sh"

bad=$root/tests/data/mistakes
t check-fine 0 check flatbed-cabin dune-crossing twin-12v "$root/profiles/grounds.ini"
t check-fine-json 0 check flatbed-cabin --json
t check-keys 3 check "$bad/keys.ini"
t check-two-json 3 check "$bad/flow.ini" "$bad/trip.ini" --json
t bad-rig 3 advise "$bad/axles.ini" --ground dune-sand
t bad-rig-json 3 advise "$bad/axles.ini" --ground dune-sand --json
t bad-set 3 advise flatbed-cabin --ground dune-sand --set rear.axle_laod=1800kg \
    --set front.road_pressure=38
t bad-mass 3 advise flatbed-cabin --ground dune-sand --set mass-1.what=none \
    --set "mass-1.mass=-1990 kg" --set "mass-1.position=0 m" --json
t no-rig 5 advise flatbed-cabim --ground dune-sand
t no-file 5 check nowhere.ini
: > "$work/here/empty.ini"
t an-empty-file 3 check empty.ini
yes '# nothing but words' | head -c 70000 > "$work/here/large.ini"
t too-large 3 advise large --ground dune-sand
rm "$work/here/large.ini"
mkfifo "$work/here/pipe.ini"
t a-pipe 5 check pipe.ini
rm "$work/here/pipe.ini"
t a-folder 5 check "$root/profiles"

# what is nearer wins: a rig here before the shipped one, one key of a ground before the catalogue
sed 's/^name .*/name = mine/' "$root/profiles/rigs/light-wagon.ini" > "$work/here/light-wagon.ini"
printf '[dune-sand]\ncap = 15 km/h\n' > "$work/here/grounds.ini"
holds nearer-rig "mine" advise light-wagon --ground dune-sand
holds nearer-key "CAP      15 km/h" advise light-wagon --ground dune-sand
holds other-keys "deflection 22 %" advise light-wagon --ground dune-sand
mkdir -p "$work/home/.config/sandshoe/rigs"
mv "$work/here/light-wagon.ini" "$work/home/.config/sandshoe/rigs/own-wagon.ini"
holds config-rig "mine" advise own-wagon --ground dune-sand
holds config-hint "did you mean own-wagon?" advise own-wagen --ground dune-sand

# a template loads as it stands
for kind in rig trip grounds compressor; do
    run list --template "$kind"
    cp "$work/out" "$work/here/template-$kind.ini"
    holds "template-$kind" "template-$kind.ini: fine" check "template-$kind.ini"
done

# a log without an event is no past refill
logs="$work/home/.local/state/sandshoe/logs"
mkdir -p "$logs"
echo '# sandshoe refill log 1' > "$logs/2026-01-02-030405-nothing-up.log"
printf '# sandshoe refill log 1\n0 rig flatbed-cabin\n' > "$logs/2026-01-01-030405-something-up.log"
holds list-log "something-up" list
ran=$((ran + 1))
grep -q "nothing-up" "$work/out" && fail "list: a log without an event"

# what a machine gave (exp -1.77) is not what is believed of it: one refill is little to go by
printf 'flatbed-cabin.ini/twin-12v\t-1.77\t0.2\t293.15\t101325\n' > "$work/home/.local/state/sandshoe/learned"
holds list-learned "1 refill, gave 17 % of its label; the next forecast" list
holds list-believed "starts from" list

# output that cannot be written
ran=$((ran + 1))
status=0
"$SANDSHOE" --version > /dev/full 2> /dev/null || status=$?
[ "$status" = 5 ] || fail "full disk: status $status"
finish
