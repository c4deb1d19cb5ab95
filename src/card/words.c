#include "card/words.h"

#include <ctype.h>
#include <math.h>

static const struct {
    const char *name, *brief, *corner[SIDE_COUNT];
} AXLES[AXLE_COUNT] = {
    [AXLE_FRONT] = {"FRONT", "F", {"LF", "RF"}},
    [AXLE_MIDDLE] = {"MIDDLE", "M", {"LM", "RM"}},
    [AXLE_REAR] = {"REAR", "R", {"LR", "RR"}},
    [AXLE_TRAILER] = {"TRAILER", "T", {"LT", "RT"}},
    [AXLE_TRAILER2] = {"TRAIL 2", "T2", {"LT2", "RT2"}},
};

const char *card_axle_word(int axle)
{
    return AXLES[axle].name;
}

const char *card_axle_brief(int axle)
{
    return AXLES[axle].brief;
}

const char *card_corner_word(int axle, int side)
{
    return AXLES[axle].corner[side];
}

void card_put_minutes(double time_s, struct text *out)
{
    double minutes = ceil(time_s / 60.0 - 1e-9);
    text_put(out, "%.0f", minutes > 0.0 ? minutes : 0.0);
}

void card_put_capitals(const char *s, struct text *out)
{
    for (; *s != '\0'; s++) {
        text_put(out, "%c", (unsigned char)*s < 0x80 ? toupper((unsigned char)*s) : *s);
    }
}

void card_add_corner_names(const struct rig *rig, struct card_content *c)
{
    for (int a = 0; a < AXLE_COUNT; a++) {
        for (int side = 0; side < SIDE_COUNT && rig->axle[a].present; side++) {
            struct card_corner *k = &c->corner[c->n_corner++];
            CARD_PUT_WORD(k->name, AXLES[a].corner[side]);
            k->axle = (enum axle_id)a;
            k->side = (enum side)side;
        }
    }
}
