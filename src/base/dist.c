#include "base/dist.h"

#include <string.h>

enum { DIST_MAX = 63 };

static int min3(int a, int b, int c)
{
    int m = a < b ? a : b;
    return m < c ? m : c;
}

int dist_edit(const char *a, const char *b)
{
    static const int far_apart = DIST_MAX + 1;
    size_t na = strlen(a);
    size_t nb = strlen(b);
    int row[3][DIST_MAX + 1];
    if (na > DIST_MAX || nb > DIST_MAX) {
        return far_apart;
    }
    for (size_t j = 0; j <= nb; j++) {
        row[0][j] = (int)j;
    }
    for (size_t i = 1; i <= na; i++) {
        int *now = row[i % 3];
        const int *last = row[(i - 1) % 3];
        now[0] = (int)i;
        for (size_t j = 1; j <= nb; j++) {
            int change = a[i - 1] != b[j - 1];
            now[j] = min3(last[j] + 1, now[j - 1] + 1, last[j - 1] + change);
            if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1]) {
                int swapped = row[(i - 2) % 3][j - 2] + 1;
                now[j] = now[j] < swapped ? now[j] : swapped;
            }
        }
    }
    return row[na % 3][nb];
}

int dist_nearest(const char *word, const char *const names[], size_t n, int max)
{
    int best = -1;
    int best_d = max + 1;
    for (size_t i = 0; i < n; i++) {
        int d = dist_edit(word, names[i]);
        if (d < best_d) {
            best_d = d;
            best = (int)i;
        }
    }
    return best;
}
