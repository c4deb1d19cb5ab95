#include "report/head_text.h"

#include <ctype.h>
#include <math.h>

#include "report/wrap.h"

enum { HEAD_LINE = 400 };

#define SAME_TEMP_K 0.5 /* K: shown as one temperature */

void head_rig_put(const struct rig *rig, struct text *out)
{
    text_put(out, "%s", rig->name[0] != '\0' ? rig->name : "unnamed rig");
    if (rig->load_state[0] != '\0') {
        text_put(out, "   ");
    }
    for (const char *s = rig->load_state; *s != '\0'; s++) {
        text_char(out, (char)toupper((unsigned char)*s), 1);
    }
    text_put(out, "\n");
}

void head_ground_put(const struct ground *g, struct text *out)
{
    char buf[HEAD_LINE];
    struct text t = text_over(buf, sizeof buf);
    text_put(&t, "%s", g->title[0] != '\0' ? g->title : g->name);
    if (g->aim_1 > 0.0) {
        text_put(&t, ": deflection %.3g %% of section height (%.3g to %.3g), %.3g %% at most",
                 100.0 * g->aim_1, 100.0 * g->aim_low_1, 100.0 * g->aim_high_1, 100.0 * g->limit_1);
    }
    wrap_put(out, HEAD_COLUMN, "Ground", buf);
    if (g->hazards[0] != '\0') {
        wrap_put(out, HEAD_COLUMN, "", g->hazards);
    }
}

void head_day_put(const struct conditions *c, double tyre_k, double road_k, enum unit_system u,
                  struct text *out)
{
    char buf[HEAD_LINE];
    struct text t = text_over(buf, sizeof buf);
    if (c->air_temp_k.is) {
        text_put(&t, "air ");
        units_put(&t, c->air_temp_k.v, Q_TEMPERATURE, u, 0);
        text_put(&t, ", ");
    }
    text_put(&t, "height %.0f m, tyres ", maybe_or(c->height_m, 0.0));
    if (fabs(tyre_k - road_k) < SAME_TEMP_K) {
        text_put(&t, "cold (");
        units_put(&t, tyre_k, Q_TEMPERATURE, u, 0);
        text_put(&t, ")");
    } else {
        units_put(&t, tyre_k, Q_TEMPERATURE, u, 0);
    }
    if (fabs(c->slope_1) > 0.0) {
        text_put(&t, ", slope %.0f %%", 100.0 * c->slope_1);
    }
    if (c->cross_slope_rad.is) {
        text_put(&t, ", side slope ");
        units_put(&t, c->cross_slope_rad.v, Q_ANGLE, u, 0);
    }
    text_put(&t, "; gauge pressures in %s, cold at ", units_symbol(Q_PRESSURE, u));
    units_put(&t, road_k, Q_TEMPERATURE, u, 0);
    wrap_put(out, HEAD_COLUMN, "Today", buf);
}
