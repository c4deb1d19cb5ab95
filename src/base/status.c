#include "base/status.h"

const char *status_text(enum status s)
{
    switch (s) {
#define STATUS_CASE(code, value, text)                                                             \
    case code:                                                                                     \
        return text;
        STATUS_TABLE(STATUS_CASE)
#undef STATUS_CASE
    }
    return "unknown status";
}

enum status status_worse(enum status a, enum status b)
{
    if (a < 0) {
        return a;
    }
    if (b < 0) {
        return b;
    }
    return a > b ? a : b;
}
