/* bench.h - time a workload: batches of about 2 ms, the median batch, name<TAB>ns per call. */
#ifndef SANDSHOE_TESTS_BENCH_H
#define SANDSHOE_TESTS_BENCH_H

#include <stdio.h>
#include <stdlib.h>
#include <time.h>

enum { BENCH_BATCHES = 61 };

static inline double bench_now_ns(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return 1e9 * (double)t.tv_sec + (double)t.tv_nsec;
}

static inline int bench_order(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

/* bench_median - median ns per call of work(context). */
static inline double bench_median(void (*work)(void *), void *context)
{
    double ns[BENCH_BATCHES], start = bench_now_ns();
    long calls = 0;
    do {
        work(context);
        calls++;
    } while (bench_now_ns() - start < 2e6);
    for (int b = 0; b < BENCH_BATCHES; b++) {
        start = bench_now_ns();
        for (long i = 0; i < calls; i++) {
            work(context);
        }
        ns[b] = (bench_now_ns() - start) / (double)calls;
    }
    qsort(ns, BENCH_BATCHES, sizeof ns[0], bench_order);
    return ns[BENCH_BATCHES / 2];
}

static inline void bench_print(const char *name, void (*work)(void *), void *context)
{
    printf("%s\t%.0f\n", name, bench_median(work, context));
}

#endif
