# doclint.awk - every prototype in the headers of core and sim stands under a comment block that
# has "ret" and "src" (prototypes without a blank line between them share one block), and every
# double there ends in a unit suffix (_1 for dimensionless).
# usage: awk -f doclint.awk HEADER...
BEGIN {
    units = "(pa|m|m2|m3|kg|n|n_m|n_m_pa|s|k|rad|w|1|mps|m_s2|m3_s|kg_m3|kg_s|si|v|m_pa)"
    free = "^(v|si|x|y|at|lo|hi|low|high|want|got)$" # generic helpers
}
FNR == 1 { block = ""; comment = 0; depth = 0; used = 0 }
{ line = $0 }
/^\/\*/ { block = ""; comment = 1 }
comment {
    block = block "\n" line
    if (line ~ /\*\//) comment = 0
    next
}
line ~ /^#/ || line ~ /\\$/ { next }
{
    gsub(/\/\*.*\*\//, "", line)
    sub(/\/\*.*/, "", line)
    rest = line
    while (match(rest, /double \*?[a-zA-Z_0-9]+/)) {
        name = substr(rest, RSTART, RLENGTH)
        rest = substr(rest, RSTART + RLENGTH)
        sub(/^double \*?/, "", name)
        if (rest ~ /^\(/ || name ~ ("_" units "$") || name ~ free) continue
        printf "doclint: %s:%d: double %s has no unit suffix\n", FILENAME, FNR, name
        bad = 1
    }
    if (depth == 0 && line ~ /^[a-z][a-zA-Z_0-9 *]*[ *][a-z_0-9]+\(/ && line !~ /^static/) {
        if (block !~ /[ *]ret / || block !~ /[ *]src /) {
            printf "doclint: %s:%d: no ret and src above: %s\n", FILENAME, FNR, line
            bad = 1
        }
        used = 1
    }
    depth += gsub(/\{/, "{", line) - gsub(/\}/, "}", line)
    if (line ~ /^[ \t]*$/ && used) { block = ""; used = 0 }
}
END { exit bad }
