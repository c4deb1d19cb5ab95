/* check.h - comparisons that cannot pass by accident, and the record behind docs/validation.md. */
#ifndef SANDSHOE_TESTS_CHECK_H
#define SANDSHOE_TESTS_CHECK_H

// clang-format off
#include <stdarg.h>
#include <stddef.h>
#include <setjmp.h>
#include <stdint.h>
#include <cmocka.h>
// clang-format on

#include "base/status.h"

/* A published or independently derived value. wanted never comes from the code under test. */
struct check_row {
    const char *topic;    /* groups rows in docs/validation.md, "tyre: load index" */
    const char *name;     /* what is computed, with its input */
    double want, tol_abs; /* the unit is in the name */
    double tol_rel;
    const char *src;    /* who, year, table/page */
    const char *status; /* "read", "second-hand", "memory", "own", "practice" */
};

/* check_value - fail unless |got - want| <= tol_abs + tol_rel |want| (NaN fails); recorded for
 * the validation table when CHECK_VALIDATION names a file. */
void check_value(const struct check_row *row, double got, const char *file, int line);
#define CHECK_ROW(row, got) check_value((row), (got), __FILE__, __LINE__)

/* check_close - the same for a value that is not recorded. */
void check_close_at(double got, double want, double tol_abs, double tol_rel, const char *src,
                    const char *file, int line);
#define CHECK_CLOSE(got, want, tol_abs, tol_rel, src)                                              \
    check_close_at((got), (want), (tol_abs), (tol_rel), (src), __FILE__, __LINE__)

/* check_between - fail unless lo <= got <= hi. */
void check_between_at(double got, double lo, double hi, const char *src, const char *file,
                      int line);
#define CHECK_BETWEEN(got, lo, hi, src)                                                            \
    check_between_at((got), (lo), (hi), (src), __FILE__, __LINE__)

void check_status_at(enum status got, enum status want, const char *file, int line);
#define CHECK_STATUS(got, want) check_status_at((got), (want), __FILE__, __LINE__)

/* check_text - fail unless equal; shows the first differing line. */
void check_text_at(const char *got, const char *want, const char *file, int line);
#define CHECK_TEXT(got, want) check_text_at((got), (want), __FILE__, __LINE__)

/* check_run - run tests[n] under the cmocka filter argv[1] if any; returns what main returns. */
int check_run(const char *group, const struct CMUnitTest tests[], size_t n, int argc, char **argv);

#endif
