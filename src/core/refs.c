#include "core/refs.h"

static const struct {
    enum standing standing;
    const char *text;
} REFS[REF_COUNT] = {
#define REF_ROW(id, standing, text) [REF_##id] = {standing, text},
    REF_TABLE(REF_ROW)
#undef REF_ROW
};

const char *ref_text(enum ref r)
{
    return r < REF_COUNT ? REFS[r].text : "?";
}

enum standing ref_standing(enum ref r)
{
    return r < REF_COUNT ? REFS[r].standing : STANDING_D;
}
