/* bench_advise.c - the main job, from a rig to its advice. */
#include "bench/bench.h"

#include "core/advice.h"
#include "core/quick.h"

struct work {
    struct rig rig;
    struct ground ground;
    struct conditions conditions;
    struct advice advice;
    int failed;
};

static void advise(void *context)
{
    struct work *w = context;
    w->failed |= advice_compute(&w->rig, &w->ground, &w->conditions, &w->advice) != STATUS_OK;
}

int main(void)
{
    static struct work w = {
        .ground = {.name = "dune-sand",
                   .kind = GROUND_SAND,
                   .strength_pa = {true, 220e3},
                   .aim_1 = 0.22,
                   .aim_low_1 = 0.20,
                   .aim_high_1 = 0.26,
                   .limit_1 = 0.33,
                   .cap_mps = {true, 25 / 3.6}},
    };
    struct quick_form form = {
        .tyre = "35x12.50R17LT 121 E", .front_load_kg = 1950, .rear_load_kg = 2350};
    struct caution_list assumed = {.n = 0};
    if (quick_rig(&form, &w.rig, &assumed) != STATUS_OK) {
        return 1;
    }
    bench_print("advise", advise, &w);
    return w.failed;
}
