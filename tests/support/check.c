#include "support/check.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <gsl/gsl_errno.h>

static void record(const struct check_row *r, double got)
{
    const char *path = getenv("CHECK_VALIDATION");
    FILE *f = path ? fopen(path, "a") : NULL;
    if (!f) {
        return;
    }
    fprintf(f, "%s\t%s\t%.9g\t%.6g\t%.6g\t%.6g\t%s\t%s\n", r->topic, r->name, r->want, got,
            r->tol_abs, r->tol_rel, r->src, r->status);
    fclose(f);
}

void check_close_at(double got, double want, double tol_abs, double tol_rel, const char *src,
                    const char *file, int line)
{
    double tol = tol_abs + tol_rel * fabs(want);
    if (!(fabs(got - want) <= tol)) {
        fprintf(stderr, "%s:%d: got %.17g, want %.17g +- %.3g, off by %.3g (%s)\n", file, line, got,
                want, tol, got - want, src);
        _fail(file, line);
    }
}

void check_value(const struct check_row *row, double got, const char *file, int line)
{
    record(row, got);
    double tol = row->tol_abs + row->tol_rel * fabs(row->want);
    if (!(fabs(got - row->want) <= tol)) {
        fprintf(stderr, "%s: %s\n", row->topic, row->name);
    }
    check_close_at(got, row->want, row->tol_abs, row->tol_rel, row->src, file, line);
}

void check_between_at(double got, double lo, double hi, const char *src, const char *file, int line)
{
    if (!(got >= lo && got <= hi)) {
        fprintf(stderr, "%s:%d: got %.17g, want %.17g..%.17g (%s)\n", file, line, got, lo, hi, src);
        _fail(file, line);
    }
}

void check_status_at(enum status got, enum status want, const char *file, int line)
{
    if (got != want) {
        fprintf(stderr, "%s:%d: status %d (%s), want %d (%s)\n", file, line, (int)got,
                status_text(got), (int)want, status_text(want));
        _fail(file, line);
    }
}

void check_text_at(const char *got, const char *want, const char *file, int line)
{
    if (strcmp(got, want) == 0) {
        return;
    }
    int n = 1;
    while (*got != '\0' && *got == *want) {
        n += *got == '\n';
        got++;
        want++;
    }
    fprintf(stderr, "%s:%d: texts differ at line %d:\n  got  %.*s\n  want %.*s\n", file, line, n,
            (int)strcspn(got, "\n"), got, (int)strcspn(want, "\n"), want);
    _fail(file, line);
}

int check_run(const char *group, const struct CMUnitTest tests[], size_t n, int argc, char **argv)
{
    gsl_set_error_handler_off();
    if (argc > 1) {
        cmocka_set_test_filter(argv[1]);
    }
    return _cmocka_run_group_tests(group, tests, n, NULL, NULL) != 0;
}
