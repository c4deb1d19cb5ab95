#include "core/caution.h"

#include <string.h>

#define LONG_S 120.0 /* s, from here on in minutes */

struct caution_row {
    enum caution_level level;
    bool standing;
    const char *code, *text, *when;
};

static const struct caution_row ROWS[CAUTION_COUNT] = {
#define CAUTION_ROW(id, level, standing, code, text, when)                                         \
    [CAUTION_##id] = {level, standing, code, text, when},
    CAUTION_TABLE(CAUTION_ROW)
#undef CAUTION_ROW
};

/* A stray code reads as the first row, which always holds. */
static const struct caution_row *row_of(enum caution_code code)
{
    return &ROWS[code < CAUTION_COUNT ? code : CAUTION_ESTIMATE];
}

/* Where the next entry goes: the end or, when full, the last NOTE (for a DANGER) or the last
 * entry of all, which is lost. */
static int place_for(struct caution_list *list, enum caution_code code)
{
    if (list->n < CAUTION_LIST) {
        return list->n++;
    }
    if (caution_level_of(code) != CAUTION_DANGER) {
        return -1;
    }
    int at = CAUTION_LIST - 1;
    while (at > 0 && caution_level_of(list->item[at].code) != CAUTION_NOTE) {
        at--;
    }
    return at > 0 ? at : CAUTION_LIST - 1;
}

struct caution *caution_raise(struct caution_list *list, enum caution_code code)
{
    int at = place_for(list, code);
    struct caution *c = at >= 0 ? &list->item[at] : &list->spill;
    *c = (struct caution){.code = code};
    return c;
}

struct caution *caution_with(struct caution *c, int i, enum quantity q, double si, int more)
{
    if (i >= 0 && i < CAUTION_ARGS) {
        c->arg[i] = (struct caution_arg){.q = q, .si = si, .more = more};
    }
    return c;
}

struct caution *caution_at_axle(struct caution *c, enum axle_id axle)
{
    c->has_axle = true;
    c->axle = axle;
    return c;
}

enum caution_level caution_level_of(enum caution_code code)
{
    return row_of(code)->level;
}

const char *caution_code_name(enum caution_code code)
{
    return row_of(code)->code;
}

bool caution_is_standing(enum caution_code code)
{
    return row_of(code)->standing;
}

const char *caution_when(enum caution_code code)
{
    return row_of(code)->when;
}

const char *caution_text(enum caution_code code)
{
    return row_of(code)->text;
}

const char *caution_level_name(enum caution_level level)
{
    static const char *const names[] = {"NOTE", "CAUTION", "DANGER"};
    return level <= CAUTION_DANGER ? names[level] : "?";
}

/* Long times read better in minutes. */
static void put_arg(const struct caution_arg *x, enum unit_system u, struct text *out)
{
    if (x->q == Q_DURATION && x->si >= LONG_S) {
        text_put(out, "%.0f min", x->si / 60.0);
    } else {
        units_put(out, x->si, x->q, u, x->more);
    }
}

void caution_put(const struct caution *c, enum unit_system u, struct text *out)
{
    for (const char *s = row_of(c->code)->text; *s != '\0'; s++) {
        bool field = s[0] == '{' && s[1] != '\0' && s[2] == '}';
        if (field && s[1] == 'w') {
            text_put(out, "%s", c->word);
        } else if (field && s[1] >= '0' && s[1] < '0' + CAUTION_ARGS) {
            put_arg(&c->arg[s[1] - '0'], u, out);
        } else {
            text_char(out, *s, 1);
            continue;
        }
        s += 2;
    }
}

bool caution_any_danger(const struct caution_list *list)
{
    for (int i = 0; i < list->n; i++) {
        enum caution_code code = list->item[i].code;
        if (caution_level_of(code) == CAUTION_DANGER && !caution_is_standing(code)) {
            return true;
        }
    }
    return false;
}

bool caution_raised(const struct caution_list *list, enum caution_code code)
{
    for (int i = 0; i < list->n; i++) {
        if (list->item[i].code == code) {
            return true;
        }
    }
    return false;
}

/* ---- reminders that belong to a job ---- */

static void once(struct caution_list *list, enum caution_code code)
{
    if (!caution_raised(list, code)) {
        (void)caution_raise(list, code);
    }
}

static void remind_each(struct caution_list *list, size_t n, const enum caution_code codes[])
{
    for (size_t i = 0; i < n; i++) {
        once(list, codes[i]);
    }
}

static bool has_truck_tyre(const struct rig *rig)
{
    for (int a = 0; a < AXLE_COUNT; a++) {
        if (rig->axle[a].present && tyre_is_truck(&rig->axle[a].tyre)) {
            return true;
        }
    }
    return false;
}

static void remind_of_rig(struct caution_list *list, const struct rig *rig)
{
    if (rig->air.springs && !caution_raised(list, CAUTION_AIR_SPRINGS)) {
        (void)caution_with(caution_raise(list, CAUTION_AIR_SPRINGS), 0, Q_PRESSURE,
                           rig->air.springs_minimum_gauge_pa, 0);
    }
    if (has_truck_tyre(rig)) {
        once(list, CAUTION_BRAKE_AIR);
    }
    if (rig->air.hookup == HOOKUP_LINKED && !rig->air.check_valves) {
        once(list, CAUTION_EQUALISE);
    }
}

void caution_remind(struct caution_list *list, enum caution_job job, const struct rig *rig)
{
    static const enum caution_code down[] = {CAUTION_BEAD, CAUTION_HOSE, CAUTION_CORE,
                                             CAUTION_WARNING_LAMP};
    static const enum caution_code up[] = {CAUTION_LINE_OF_FIRE, CAUTION_INSPECT, CAUTION_HOSE,
                                           CAUTION_HEARING,      CAUTION_RECHECK, CAUTION_JACK,
                                           CAUTION_RESEAT};
    once(list, CAUTION_ESTIMATE);
    if (job == CAUTION_JOB_DOWN) {
        remind_each(list, sizeof down / sizeof down[0], down);
    } else {
        remind_each(list, sizeof up / sizeof up[0], up);
        if (rig->air.source == AIR_COMPRESSOR) {
            once(list, CAUTION_EXHAUST);
        }
    }
    remind_of_rig(list, rig);
}
