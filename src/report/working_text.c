#include "report/working_text.h"

#include "report/wrap.h"

void working_text_put(const struct working *w, enum unit_system u, struct text *out)
{
    text_put(out, "\nThe working; equation numbers are those of docs/theory.md\n\n");
    for (int i = 0; i < w->n; i++) {
        working_put(&w->row[i], u, WRAP_WIDTH, out);
    }
}
