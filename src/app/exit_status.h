/* exit_status.h - the exit statuses, one table for the program and its manual. */
#ifndef SANDSHOE_APP_EXIT_STATUS_H
#define SANDSHOE_APP_EXIT_STATUS_H

#define EXIT_TABLE(X)                                                                              \
    X(EXIT_FINE, 0, "fine")                                                                        \
    X(EXIT_DANGER, 1, "fine, but a DANGER arises from these inputs")                               \
    X(EXIT_USAGE, 2, "usage error")                                                                \
    X(EXIT_BAD_FILE, 3, "bad profile, trip or log: every mistake reported, nothing computed")      \
    X(EXIT_REFUSED, 4, "refused as unsafe")                                                        \
    X(EXIT_SYSTEM, 5, "file or system error")

enum exit_status {
#define EXIT_ENUM(code, value, text) code = (value),
    EXIT_TABLE(EXIT_ENUM)
#undef EXIT_ENUM
};

#endif
