/* oracle.h - the best that anyone could say of a refill's end: Bayes by brute force, told what no
 * driver knows - how machines, tyres and cores of the study are spread, and the energy model itself.
 * Thousands of refills are drawn as the study draws its own; those that would have shown the same
 * readings are averaged. */
#ifndef SANDSHOE_TESTS_ORACLE_H
#define SANDSHOE_TESTS_ORACLE_H

#include "support/truth.h"

enum { ORACLE_DRAWS = 6000 };

/* oracle_suits - whether so many draws are enough: one coarse reading of all corners at a time. */
bool oracle_suits(const struct truth_case *c);

/* oracle_begin - draw the refills of a case; the next call or oracle_end lets them go. */
void oracle_begin(const struct truth_case *c);

/* oracle_finish - mean finish after n readings, s; NAN when fewer than 30 draws count. */
double oracle_finish(const struct truth_case *c, const struct truth *t, int n);

void oracle_end(void);

#endif
