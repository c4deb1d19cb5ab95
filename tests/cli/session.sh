#!/bin/bash
# the session without a terminal: scripts, exit statuses, the same numbers as advise --json
# shellcheck source=tests/cli/lib.sh
. "$(dirname "$0")/lib.sh"

printf 'text\nkeys g\ntext\nkeys Esc p\ntext\n' > "$work/here/look"
printf 'keys dance\n' > "$work/here/wrong"
printf '[rig]\nname = x\n' > "$work/here/bad.ini"

t session-no-terminal 2 flatbed-cabin
t session-no-rig 5 no-such-rig --script look
t session-bad-rig 3 bad --script look
t session-no-ground 2 flatbed-cabin --ground moon --script look
t session-bad-script 2 flatbed-cabin --script wrong
t session-bad-size 2 flatbed-cabin --script look --size 80by24
t session-set 0 flatbed-cabin --set "rear.axle_load=2500 kg" --ground dune-sand --script look --ascii
t session-quick 0 --tyre "35x12.50R17LT 121 E" --front 1950kg --rear 2350kg \
    --road front=38psi,rear=48psi --ground dune-sand --script look --size 60x20

# each line of jq's answer must stand on one of the screens
run touring-wagon --ground dune-sand --script look --size 132x43
cp "$work/out" "$work/screens"
run advise touring-wagon --ground dune-sand --json
psi='def psi: . / 6.894757293168361 | round | tostring;'
{
    jq -r "$psi"' .corners[] | "road \(.road_kpa | psi)"' "$work/out"
    jq -r "$psi"' (.speed_cap_kmh | round | tostring) as $cap | [.corners[] | .target_kpa | psi] |
        "\($cap) km/h    \(.[0])   \(.[2])   \(.[4])"' "$work/out"
    jq -r '.corners[0] | "\(.patch_length_mm | round) x \(.patch_width_mm | round) mm",
        "\(.patch_area_cm2 | round) cm2, road \(.patch_area_road_cm2 | round)",
        "centre \(.loaded_radius_mm | round) mm high"' "$work/out"
    jq -r "$psi"' .flotation | "needs \(.needed_target_kpa | psi), has \(.strength_kpa | psi) psi CI: \(.passes)"' \
        "$work/out"
} > "$work/want"
while IFS= read -r words; do
    ran=$((ran + 1))
    grep -qF -- "$words" "$work/screens" || fail "screens as advise --json: no '$words'"
done < "$work/want"
[ "$(wc -l < "$work/want")" -ge 11 ] || fail "screens as advise --json: too few numbers"
finish
