/* dist.h - edit distance, for "did you mean". */
#ifndef SANDSHOE_BASE_DIST_H
#define SANDSHOE_BASE_DIST_H

#include <stddef.h>

/* dist_edit - Damerau-Levenshtein distance (neighbour swaps count 1); strings beyond 63 bytes
 * count as far apart (64). */
int dist_edit(const char *a, const char *b);

/* dist_nearest - index of the nearest of n names within max edits, or -1. */
int dist_nearest(const char *word, const char *const names[], size_t n, int max);

#endif
