#include "report/cell.h"

#include <math.h>

#define CLOCK_MOST_S 360000.0 /* 100 h */

enum { CELL_TEXT = 64 };

void cell_right(struct text *out, int end, const char *s)
{
    text_pad_to(out, end - text_width(s));
    text_put(out, "%s", s);
}

void cell_value(struct text *out, int end, double si, enum quantity q, enum unit_system u, int more)
{
    char buf[CELL_TEXT];
    struct text t = text_over(buf, sizeof buf);
    units_put_bare(&t, si, q, u, more);
    cell_right(out, end, buf);
}

void cell_value_unit(struct text *out, int end, double si, enum quantity q, enum unit_system u,
                     int more)
{
    char buf[CELL_TEXT];
    struct text t = text_over(buf, sizeof buf);
    units_put(&t, si, q, u, more);
    cell_right(out, end, buf);
}

/* What the last decimal of a pressure is worth. */
static double quantum_pa(enum unit_system u)
{
    static const double pa[] = {UNITS_PA_PER_PSI, 0.1 * UNITS_PA_PER_BAR, 1000.0};
    return pa[u];
}

int cell_pressure_more(const struct rig *rig, enum unit_system u)
{
    double step_pa = rig_gauge_step(rig);
    double steps = step_pa / quantum_pa(u);
    return steps > 0.5 && fabs(steps - round(steps)) < 1e-6 ? 0 : 1;
}

void cell_clock(struct text *out, double s)
{
    if (!(s < CLOCK_MOST_S)) { /* not in a day's work, or not at all */
        text_put(out, "never");
        return;
    }
    long whole = lround(s);
    if (whole >= 3600) {
        text_put(out, "%ld:%02ld:%02ld", whole / 3600, whole / 60 % 60, whole % 60);
    } else {
        text_put(out, "%ld:%02ld", whole / 60, whole % 60);
    }
}

void cell_time(struct text *out, int end, double time_s)
{
    char buf[CELL_TEXT];
    struct text t = text_over(buf, sizeof buf);
    cell_clock(&t, time_s);
    cell_right(out, end, buf);
}
