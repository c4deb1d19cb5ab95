#!/bin/sh
# validation.sh OUT TEST... - run the unit tests with recording on and write docs/validation.md's
# table: source, want, got, error, status, for every named row of the tests.
set -eu
out=$1
shift
tsv=$(mktemp)
trap 'rm -f "$tsv"' EXIT
for t in "$@"; do
    CHECK_VALIDATION=$tsv "$t" > /dev/null 2>&1 || { echo "validation: $t fails" >&2; exit 1; }
done
{
    cat docs/validation.head.md docs/coverage.md docs/coverage-down.md 2>/dev/null || true
    LC_ALL=C sort -t "$(printf '\t')" -s -k1,1 "$tsv" | awk -F '\t' '
        $1 != topic {
            topic = $1
            printf "\n## %s\n\n| what | want | got | error | tolerance | source | status |\n", topic
            print "|--|--|--|--|--|--|--|"
        }
        {
            err = $3 != 0 ? sprintf("%+.2g %%", 100 * ($4 - $3) / ($3 < 0 ? -$3 : $3)) : sprintf("%+.2g", $4 - $3)
            if ($4 == $3 || err == "+0 %" || err == "-0 %") err = "0"
            tol = ""
            if ($5 + 0 > 0) tol = "+-" $5
            if ($6 + 0 > 0) tol = tol (tol != "" ? ", " : "+-") sprintf("%g %%", 100 * $6)
            if (tol == "") tol = "exact"
            printf "| %s | %.6g | %.6g | %s | %s | %s | %s |\n", $2, $3, $4, err, tol, $7, $8
            n++; st[$8]++
        }
        END {
            printf "\n## Counts\n\n%d rows:\n\n", n
            fflush()
            for (k in st) printf "- %s %d\n", k, st[k] | "LC_ALL=C sort"
        }
    '
} > "$out.new"
mv "$out.new" "$out"
