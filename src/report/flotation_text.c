#include "report/flotation_text.h"

#include "report/head_text.h"
#include "report/wrap.h"

enum { FLOTATION_TEXT = 800 };

static const char *method_words(enum flotation_method m)
{
    switch (m) {
    case FLOTATION_VCI:
        return "one-pass vehicle cone index, Priddy and Willoughby 2006";
    case FLOTATION_SAND_NUMBER:
        return "sand number, Turnage 1972, +-30 %";
    case FLOTATION_PULL:
        return "pull less resistance, Brixius 1987";
    case FLOTATION_SHALLOW_SNOW:
        return "shallow snow, CRREL 95-1, from one tracked vehicle";
    case FLOTATION_BRIXIUS:
        return "Brixius";
    case FLOTATION_MACLAURIN:
        return "Maclaurin";
    case FLOTATION_NONE:
        break;
    }
    return "none";
}

static void put_strength(struct text *t, double pa, enum unit_system u)
{
    units_put(t, pa, Q_STRENGTH, u, 0);
}

static const char *strength_name(const struct ground *g)
{
    return g->kind == GROUND_FINE ? "rating cone index" : "cone index";
}

static void put_needed(const struct flotation *f, const struct ground *g, enum unit_system u,
                       struct text *t)
{
    if (!f->needed_target_pa.is) {
        return;
    }
    text_put(t, "needs a %s of ", strength_name(g));
    put_strength(t, f->needed_target_pa.v, u);
    if (f->needed_road_pa.is) {
        text_put(t, ", at road pressure ");
        put_strength(t, f->needed_road_pa.v, u);
    }
    if (f->gain_1.is) {
        text_put(t, " (gain %.0f %%)", 100.0 * f->gain_1.v);
    }
    if (f->strength_pa.is) {
        text_put(t, "; this ground has ");
        put_strength(t, f->strength_pa.v, u);
    }
    text_put(t, ": ");
}

static const char *verdict(enum passes p)
{
    switch (p) {
    case PASSES_REPEATED:
        return "PASSES REPEATEDLY";
    case PASSES_FEW:
        return "A FEW CAREFUL PASSES";
    case PASSES_UNCERTAIN:
        return "UNCERTAIN";
    case PASSES_STICK:
        return "LIKELY TO STICK";
    case PASSES_NA:
        break;
    }
    return "not judged";
}

static void put_beside(const struct flotation *f, enum unit_system u, struct text *t)
{
    if (f->mass_equivalent_kg.is && f->mass_equivalent_kg.v > 0.0) {
        text_put(t, " As if ");
        units_put(t, f->mass_equivalent_kg.v, Q_MASS, u, -1);
        text_put(t, " had been unloaded at road pressure.");
    }
    for (int i = 0; i < f->n_other; i++) {
        if (f->other[i].needed_target_pa.is) {
            text_put(t, " By %s it needs ", method_words(f->other[i].method));
            put_strength(t, f->other[i].needed_target_pa.v, u);
            text_put(t, ".");
        }
    }
    if (f->pull_margin_1.is) {
        text_put(t, " Pull to spare: %.0f %% of the weight.", 100.0 * f->pull_margin_1.v);
    }
    if (f->sinkage_m.is) {
        text_put(t, " Sinks about ");
        units_put(t, f->sinkage_m.v, Q_LENGTH, u, 0);
        text_put(t, ".");
    }
    if (f->mmp_road_pa.is && f->mmp_target_pa.is) {
        text_put(t, " Mean maximum pressure ");
        put_strength(t, f->mmp_road_pa.v, u);
        text_put(t, " to ");
        put_strength(t, f->mmp_target_pa.v, u);
        text_put(t, ".");
    }
}

void flotation_text_put(const struct flotation *f, const struct ground *g, enum unit_system u,
                        struct text *out)
{
    char buf[FLOTATION_TEXT];
    struct text t = text_over(buf, sizeof buf);
    if (f->method == FLOTATION_NONE && f->passes == PASSES_NA) {
        return;
    }
    put_needed(f, g, u, &t);
    text_put(&t, "%s", verdict(f->passes));
    if (f->method != FLOTATION_NONE) {
        text_put(&t, " (%s).", method_words(f->method));
    }
    put_beside(f, u, &t);
    wrap_put(out, HEAD_COLUMN, "Sinking", buf);
}
