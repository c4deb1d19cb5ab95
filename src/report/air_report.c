#include "report/air_report.h"

const char *refill_problem_name(enum refill_problem p)
{
    static const char *const names[] = {"none",       "source-weak", "cut-out",
                                        "tank-empty", "gave-up",     "nothing-to-do"};
    return p <= REFILL_NOTHING_TO_DO ? names[p] : "?";
}

const char *refill_problem_words(enum refill_problem p)
{
    static const char *const words[] = {
        "fine",
        "the source stops giving air below a target: it cannot fill so far",
        "the compressor cuts out below a target: raise the cut-out or fill elsewhere",
        "the tank is empty before a target is reached",
        "no end was found: look at the source's figures",
        "every corner stands at its target or above",
    };
    return p <= REFILL_NOTHING_TO_DO ? words[p] : "?";
}

const char *refill_problem_short(enum refill_problem p)
{
    static const char *const words[] = {
        "fine",         "source too weak", "cuts out too low", "tank empty too early",
        "no end found", "nothing to do"};
    return p <= REFILL_NOTHING_TO_DO ? words[p] : "?";
}

const char *refill_do_name(enum refill_do what)
{
    static const char *const names[] = {"drop", "move", "rest", "stop"};
    return what <= REFILL_STOP ? names[what] : "?";
}

const char *refill_whatif_name(enum refill_whatif_kind k)
{
    static const char *const names[] = {"core-out", "cooler-intake", "second-source", "engine-off",
                                        "rest-earlier"};
    return k < WHATIF_COUNT ? names[k] : "?";
}

const char *refill_whatif_words(enum refill_whatif_kind k)
{
    static const char *const words[] = {"valve cores out", "intake 20 K cooler",
                                        "a second source like it", "engine off, lower voltage",
                                        "rest before the run time is used up"};
    return k < WHATIF_COUNT ? words[k] : "?";
}

const char *report_corner_name(int corner)
{
    return corner_name((enum axle_id)(corner / SIDE_COUNT), (enum side)(corner % SIDE_COUNT));
}
