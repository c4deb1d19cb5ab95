/* status.h - result codes shared by every layer. */
#ifndef SANDSHOE_BASE_STATUS_H
#define SANDSHOE_BASE_STATUS_H

/* 0 is fine, > 0 is a warning (the result is valid, the caller must surface it), < 0 an error
 * (outputs are untouched).  X(code, value, text). */
#define STATUS_TABLE(X)                                                                            \
    X(STATUS_OK, 0, "fine")                                                                        \
    X(STATUS_W_EXTRAPOLATED, 1, "outside the published range, extrapolated")                       \
    X(STATUS_W_CLAMPED, 2, "outside the range of the method, clamped")                             \
    X(STATUS_W_NOT_COVERED, 3, "the method does not cover this construction")                      \
    X(STATUS_W_ASSUMED, 4, "a value was assumed")                                                  \
    X(STATUS_E_DOMAIN, -1, "a number is not finite or out of its range")                           \
    X(STATUS_E_SYNTAX, -2, "cannot be read")                                                       \
    X(STATUS_E_UNIT_MISSING, -3, "the unit is missing")                                            \
    X(STATUS_E_UNIT_UNKNOWN, -4, "the unit is not known here")                                     \
    X(STATUS_E_DECIMAL_COMMA, -5, "write a decimal point, not a comma")                            \
    X(STATUS_E_UNKNOWN, -6, "unknown name")                                                        \
    X(STATUS_E_MISSING, -7, "a required value is missing")                                         \
    X(STATUS_E_NO_SOLUTION, -8, "no solution in range")                                            \
    X(STATUS_E_REFUSED, -9, "refused as unsafe")                                                   \
    X(STATUS_E_MEASURE_AGAIN, -10, "the measurement is implausible, measure again")                \
    X(STATUS_E_FULL, -11, "no room left")                                                          \
    X(STATUS_E_SYSTEM, -12, "the system reported an error")                                        \
    X(STATUS_E_MEMORY, -13, "out of memory")

enum status {
#define STATUS_ENUM(code, value, text) code = (value),
    STATUS_TABLE(STATUS_ENUM)
#undef STATUS_ENUM
};

#define MUST_CHECK __attribute__((warn_unused_result))

/* status_text - the text of a status code; "unknown status" for a stray number. */
const char *status_text(enum status s);

/* status_worse - the one to report of two: any error before any warning before fine. */
enum status status_worse(enum status a, enum status b);

#endif
