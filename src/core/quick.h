/* quick.h - a rig from three answers: tyre size, axle loads; all else is assumed and said. */
#ifndef SANDSHOE_CORE_QUICK_H
#define SANDSHOE_CORE_QUICK_H

#include "base/num.h"
#include "base/status.h"
#include "core/caution.h"
#include "core/rig.h"

struct quick_form {
    const char *tyre;      /* size; load index, speed symbol and load range may follow */
    const char *rear_tyre; /* NULL or "" = the same */
    double front_load_kg, rear_load_kg;
    struct maybe front_road_gauge_pa, rear_road_gauge_pa;
    enum unit_system units;
};

/* quick_rig - the rig that three answers stand for.
 *
 *   in   in
 *   out  rig      complete, rig->quick set; untouched on error
 *   out  assumed  a NOTE is appended for everything that was not given; untouched on error
 *   ret  STATUS_OK; E_SYNTAX or E_DOMAIN (a size that cannot be read); E_DOMAIN (a load or
 *        pressure that is not above 0)
 *   how  docs/theory.md A3 for the road pressure: that of the load, 10 % more, rounded up
 *   src  load range and usual pressure: TRA practice [memory]; the rest common practice
 */
enum status quick_rig(const struct quick_form *in, struct rig *rig,
                      struct caution_list *assumed) MUST_CHECK;

#endif
