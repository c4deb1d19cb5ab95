#!/bin/bash
# the clock's forecast over recorded jobs
# shellcheck source=tests/cli/lib.sh
. "$(dirname "$0")/lib.sh"

t replay-beach 0 replay beach-exit
t replay-beach-json 0 replay beach-exit --json
t replay-single 0 replay one-by-one --units bar
t replay-down 0 replay let-down
t replay-unknown 5 replay no-such-log

# a bad log is told by file and line, and nothing is computed
cd "$work/here" || exit 1
printf '# sandshoe refill log 1\n0 rig light-wagon\n0 read all 15 psi settled\n0 air on\n60 read trailer 18 psi settled\n' > absent.log
printf '# sandshoe refill log 1\n0 rig light-wagon\n0 read all 15 settled\n9 air on\n3 air off\n5 brew tea\n' > bad.log
printf '# sandshoe refill log 1\n0 rig light-wagon\n0 read front 15 psi settled\n0 air on\n' > start.log
printf '# sandshoe refill log 1\n0 read all 15 psi settled\n' > norig.log
printf '# sandshoe refill log 1\n0 rig light-wagon *00000000\n' > changed.log
printf '# sandshoe refill log 1\n0 rig light-wagon\n0 job down\n0 hookup linked\n0 core rear-right out\n0 target all 18 psi\n0 read all 35 psi settled\n0 air on\n25 drop rear-right\n26 air off\n46 read front 32 psi settled\n' > cores.log
printf '# sandshoe refill log 1\n0 rig light-wagon\n0 job down\n0 read all 35 psi settled\n0 air on\n9 core rear out\n' > late-core.log
t replay-cores 0 replay cores.log
t replay-cores-json 0 replay cores.log --json
t replay-late-core 3 replay late-core.log
for p in 5 11 130; do
    printf '# sandshoe refill log 1\n0 rig light-wagon\n0 job down\n0 target all %s psi\n0 read all 26 psi settled\n0 air on\n60 air off\n80 read all 24 psi settled\n90 done\n' $p > target-$p.log
done
t replay-too-low 4 replay target-5.log
t replay-too-low-json 4 replay target-5.log --json
t replay-below-floor 1 replay target-11.log
t replay-over 1 replay target-130.log
t replay-absent 3 replay absent.log
t replay-bad 3 replay bad.log
t replay-bad-json 3 replay bad.log --json
t replay-no-start 3 replay start.log
t replay-no-rig 3 replay norig.log
t replay-changed 3 replay changed.log
# after the end, a second rig, wheels in pieces, a tyre found low, a reading taken back, hours
printf '# sandshoe refill log 1\n0 rig light-wagon\n0 rig flatbed-cabin\n0 read all 15 psi settled\n9 done\n10 read all 16 psi settled\n11 air on\n' > after.log
printf '# sandshoe refill log 1\n0 rig light-wagon\n0 note set rear.wheel multi-piece\n0 read all 15 psi settled\n0 air on\n60 read all 20 psi flowing\n' > pieces.log
printf '# sandshoe refill log 1\n0 rig flatbed-cabin\n0 read all 18 psi settled\n0 read front-left 8 psi settled\n0 air on\n60 air off\n80 read all 22 psi settled\n' > low.log
printf '# sandshoe refill log 1\n0 rig flatbed-cabin\n0 read all 18 psi settled\n0 air on\n60 air off\n80 read all 32 psi settled\n81 undo\n82 read all 22 psi settled\n' > undone.log
printf '# sandshoe refill log 1\n0 rig flatbed-cabin\n0 note set air.flow 0 psi 30 L/min, 35 psi 22 L/min, 80 psi 14 L/min\n0 read all 15 psi settled\n0 air on\n1200 air off\n1220 read all 24 psi settled\n' > slow.log
t replay-after-done 3 replay after.log
t replay-multi-piece 4 replay pieces.log
t replay-found-low 1 replay low.log
t replay-undone 0 replay undone.log
holds replay-undone-json '"undone": true' replay undone.log --json
t replay-slow 0 replay slow.log
finish
