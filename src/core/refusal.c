#include "core/refusal.h"

#include <math.h>

const char *refusal_name(enum refusal_code c)
{
    static const char *const names[] = {"none",        "overload-tyre", "overload-axle",
                                        "multi-piece", "side-slope",    "too-low",
                                        "found-low",   "flammables"};
    return c <= REFUSAL_FLAMMABLES ? names[c] : "?";
}

static void put_overload(const struct refusal *r, enum unit_system u, struct text *out)
{
    bool tyre = r->code == REFUSAL_OVERLOAD_TYRE;
    text_put(out, "%s %s axle carries ", tyre ? "A tyre on the" : "The", axle_name(r->axle));
    units_put(out, r->have_kg, Q_MASS, u, 0);
    text_put(out, ", %s ", tyre ? "moulded for" : "rated for");
    units_put(out, r->rated_kg, Q_MASS, u, 0);
    text_put(out, " (%.0f %%). Pressure cannot mend an overload.", 100.0 * r->share_1);
}

static void put_too_low(const struct refusal *r, enum unit_system u, struct text *out)
{
    units_put(out, r->have_gauge_pa, Q_PRESSURE, u, 0);
    text_put(out, " in the %s tyres is ", axle_name(r->axle));
    if (r->least_gauge_pa > 0) {
        text_put(out, "below the least that bead and tyre maker allow, ");
        units_put(out, r->least_gauge_pa, Q_PRESSURE, u, 0);
        text_put(out, ".");
        return;
    }
    text_put(out,
             "so soft that they deflect %.1f %% of the section height; beyond 33 %% rim, bead "
             "and casing are at risk.",
             100.0 * r->share_1);
}

void refusal_put(const struct refusal *r, enum unit_system u, struct text *out)
{
    switch (r->code) {
    case REFUSAL_NONE:
        break;
    case REFUSAL_OVERLOAD_TYRE:
    case REFUSAL_OVERLOAD_AXLE:
        put_overload(r, u, out);
        break;
    case REFUSAL_MULTI_PIECE:
        text_put(out, "The %s wheels are in several pieces: work for trained people with a cage.",
                 axle_name(r->axle));
        break;
    case REFUSAL_SIDE_SLOPE:
        text_put(out,
                 "This side slope tips: (height / track) x slope is %.2f, and 0.40 is the most "
                 "that is advised on.",
                 r->share_1);
        break;
    case REFUSAL_TOO_LOW:
        put_too_low(r, u, out);
        break;
    case REFUSAL_FOUND_LOW:
        text_put(out, "A tyre found low may have been driven low and be broken inside where nobody "
                      "sees it. It gets no air.");
        break;
    case REFUSAL_FLAMMABLES:
        text_put(out, "Nothing that burns goes into a tyre, ever: people have died of it.");
        break;
    }
}

static void put_way_out_of_overload(const struct refusal *r, enum unit_system u, struct text *out)
{
    text_put(out, "Remove about ");
    units_put(out, 10.0 * ceil(r->excess_kg / 10.0 - 1e-6), Q_MASS, u, 0);
    text_put(out, " from the %s axle, then ask again.", axle_name(r->axle));
}

void refusal_put_way_out(const struct refusal *r, enum unit_system u, struct text *out)
{
    switch (r->code) {
    case REFUSAL_NONE:
        break;
    case REFUSAL_OVERLOAD_TYRE:
    case REFUSAL_OVERLOAD_AXLE:
        put_way_out_of_overload(r, u, out);
        break;
    case REFUSAL_MULTI_PIECE:
        text_put(out, "Have every change of pressure made by a fitter trained for these wheels.");
        break;
    case REFUSAL_SIDE_SLOPE:
        text_put(out, "Take another line, straight up or down, or take load off the roof.");
        break;
    case REFUSAL_TOO_LOW:
        text_put(out, r->least_gauge_pa > 0 ? "Ask again without it: the answer shows the floor."
                                            : "Use more air, or carry less.");
        break;
    case REFUSAL_FOUND_LOW:
        text_put(out, "Fit the spare, and have this tyre taken off and looked at inside.");
        break;
    case REFUSAL_FLAMMABLES:
        text_put(
            out,
            "Wheel off the ground on stands, beads clean and wet with soapy water, core "
            "out, a long hose, nobody near; stop at 40 psi (2.8 bar) or the maker's lower figure. "
            "If it has not seated, let it down and fetch a fitter.");
        break;
    }
}
