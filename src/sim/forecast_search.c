#include <math.h>

#include <gsl/gsl_errno.h>
#include <gsl/gsl_linalg.h>
#include <gsl/gsl_matrix.h>

#include "base/num.h"
#include "sim/forecast_part.h"

enum { SEARCH_STEPS = 10, SEARCH_HALVINGS = 5 };
#define SEARCH_DIFF_1  0.05 /* difference for slopes, in standard normals */
#define SEARCH_STEP_1  1.5  /* longest step in any unknown */
#define SEARCH_DONE_1  0.02
#define SEARCH_ANEW_1  0.4  /* after a move this long the slopes are taken anew */
#define UNLIKE_FLOOR_1 0.01 /* keeps a corner of which nothing was read out of the fit check */
#define CLOUD_WIDER_1  1.3  /* of the covariance about the best */
#define CLOUD_MEMBER_1 1.5  /* of the members' covariance, model F1 */
#define CLOUD_BLEND_1  0.5  /* of the members' own; few of them span few directions */

struct misfit {
    const struct plan *p;
    double expected_pa[PART_OBS];
    double cost_1; /* half the sum of squares, prior and readings */
};

static double error_pa(const struct observation *o)
{
    return sqrt(o->sigma_pa * o->sigma_pa + o->half_pa * o->half_pa / 3);
}

static enum status answers(const struct plan *p, const double z[], double expected_pa[])
{
    struct unknowns u;
    struct member_out out;
    unknowns_of(p, z, &u);
    enum status st = p->s->up ? member_run(p, &u, MEMBER_READINGS, &out)
                              : member_deflate(p, &u, MEMBER_READINGS, &out);
    for (int k = 0; st == STATUS_OK && k < p->n_obs; k++) {
        st = isfinite(out.expected_pa[k]) ? STATUS_OK : STATUS_E_DOMAIN;
        expected_pa[k] = out.expected_pa[k];
    }
    return st;
}

static enum status misfit_at(const double z[], struct misfit *m)
{
    const struct plan *p = m->p;
    enum status st = answers(p, z, m->expected_pa);
    m->cost_1 = 0;
    for (int d = 0; d < p->dims; d++) {
        m->cost_1 += 0.5 * z[d] * z[d];
    }
    for (int k = 0; st == STATUS_OK && k < p->n_obs; k++) {
        double e = (p->obs[k].p_gauge_pa - m->expected_pa[k]) / error_pa(&p->obs[k]);
        m->cost_1 += 0.5 * e * e;
    }
    return isfinite(m->cost_1) ? st : STATUS_E_DOMAIN;
}

/* Slopes of the expected readings, in their standard errors. */
static enum status slopes_at(const struct misfit *m, const double z[],
                             double slope[FORECAST_UNKNOWNS][PART_OBS])
{
    const struct plan *p = m->p;
    double moved[FORECAST_UNKNOWNS];
    for (int d = 0; d < p->dims; d++) {
        moved[d] = z[d];
    }
    for (int d = 0; d < p->dims; d++) {
        moved[d] = z[d] + SEARCH_DIFF_1;
        enum status st = answers(p, moved, slope[d]);
        if (st != STATUS_OK) {
            return st;
        }
        moved[d] = z[d];
        for (int k = 0; k < p->n_obs; k++) {
            slope[d][k] =
                (slope[d][k] - m->expected_pa[k]) / (SEARCH_DIFF_1 * error_pa(&p->obs[k]));
        }
    }
    return STATUS_OK;
}

/* Normal matrix (with the prior's unit matrix) and gradient at z. */
static void normal_at(const struct misfit *m, const double z[],
                      double slope[FORECAST_UNKNOWNS][PART_OBS],
                      double a[FORECAST_UNKNOWNS][FORECAST_UNKNOWNS], double g[])
{
    const struct plan *p = m->p;
    for (int d = 0; d < p->dims; d++) {
        g[d] = -z[d];
        for (int k = 0; k < p->n_obs; k++) {
            g[d] += slope[d][k] * (p->obs[k].p_gauge_pa - m->expected_pa[k]) / error_pa(&p->obs[k]);
        }
        for (int e = 0; e <= d; e++) {
            double sum = d == e ? 1 : 0;
            for (int k = 0; k < p->n_obs; k++) {
                sum += slope[d][k] * slope[e][k];
            }
            a[d][e] = a[e][d] = sum;
        }
    }
}

/* Step dz = A^-1 g, shortened; A is replaced by its Cholesky factor. */
static enum status newton_step(int dims, double a[FORECAST_UNKNOWNS][FORECAST_UNKNOWNS],
                               const double g[], double dz[])
{
    gsl_matrix_view view =
        gsl_matrix_view_array_with_tda(&a[0][0], (size_t)dims, (size_t)dims, FORECAST_UNKNOWNS);
    gsl_vector_const_view right = gsl_vector_const_view_array(g, (size_t)dims);
    gsl_vector_view step = gsl_vector_view_array(dz, (size_t)dims);
    if (gsl_linalg_cholesky_decomp1(&view.matrix) != GSL_SUCCESS ||
        gsl_linalg_cholesky_solve(&view.matrix, &right.vector, &step.vector) != GSL_SUCCESS) {
        return STATUS_E_NO_SOLUTION;
    }
    double longest = 0;
    for (int d = 0; d < dims; d++) {
        longest = fmax(longest, fabs(dz[d]));
    }
    for (int d = 0; d < dims && longest > SEARCH_STEP_1; d++) {
        dz[d] *= SEARCH_STEP_1 / longest;
    }
    return STATUS_OK;
}

/* Go along dz as far as it helps; *moved is the longest move made. */
static enum status go(struct misfit *m, double z[], const double dz[], double *moved)
{
    *moved = 0;
    for (int k = 0; k < SEARCH_HALVINGS; k++) {
        double share = ldexp(1, -k), at[FORECAST_UNKNOWNS] = {0};
        struct misfit trial = {.p = m->p};
        double longest = 0;
        for (int d = 0; d < m->p->dims; d++) {
            at[d] = z[d] + share * dz[d];
            longest = fmax(longest, fabs(share * dz[d]));
        }
        enum status st = misfit_at(at, &trial);
        if (st == STATUS_OK && trial.cost_1 < m->cost_1) {
            for (int d = 0; d < m->p->dims; d++) {
                z[d] = at[d];
            }
            *m = trial;
            *moved = longest;
            return STATUS_OK;
        }
    }
    return STATUS_OK;
}

/* root root' = widened inverse of the normal matrix, whose Cholesky factor is in a. */
static enum status cloud_root(struct cloud *c, double widen)
{
    size_t n = (size_t)c->dims;
    gsl_matrix_view root =
        gsl_matrix_view_array_with_tda(&c->root_1[0][0], n, n, FORECAST_UNKNOWNS);
    (void)gsl_matrix_scale(&root.matrix, widen);
    if (gsl_linalg_cholesky_decomp1(&root.matrix) != GSL_SUCCESS) {
        return STATUS_E_NO_SOLUTION;
    }
    c->log_volume_1 = 0;
    for (int d = 0; d < c->dims; d++) {
        c->log_volume_1 += log(c->root_1[d][d]);
        for (int e = d + 1; e < c->dims; e++) {
            c->root_1[d][e] = 0;
        }
    }
    return STATUS_OK;
}

/* If a corner is like its mates, what the readings make of its own volume and core scatters with
 * the prior's variance less what is left after them: a distance in those units. */
static double unlike(const struct cloud *posterior, const double z[], int i)
{
    const int v = Z_OWN(i, Z_OWN_VOLUME), c = Z_OWN(i, Z_OWN_CORE);
    double a = 1 - posterior->root_1[v][v] + UNLIKE_FLOOR_1, b = -posterior->root_1[v][c];
    double d = 1 - posterior->root_1[c][c] + UNLIKE_FLOOR_1;
    double square = (d * z[v] * z[v] - 2 * b * z[v] * z[c] + a * z[c] * z[c]) / (a * d - b * b);
    return (z[v] > z[c] ? -1 : 1) * sqrt(fmax(square, 0));
}

/* Centre and spread of the cloud from what the search ended with. */
static enum status settle(const struct misfit *m, struct found *found, struct cloud *cloud)
{
    const struct plan *p = m->p;
    for (int k = 0; k < p->n_obs; k++) {
        found->expected_pa[k] = m->expected_pa[k];
        found->residual_1[k] = (p->obs[k].p_gauge_pa - m->expected_pa[k]) / error_pa(&p->obs[k]);
    }
    for (int d = 0; d < p->dims; d++) {
        cloud->centre_1[d] = found->z_1[d];
    }
    size_t n = (size_t)p->dims;
    gsl_matrix_view a =
        gsl_matrix_view_array_with_tda(&cloud->root_1[0][0], n, n, FORECAST_UNKNOWNS);
    if (gsl_linalg_cholesky_invert(&a.matrix) != GSL_SUCCESS) {
        return STATUS_E_NO_SOLUTION;
    }
    for (int i = 0; i < p->n; i++) {
        found->unlike_1[i] = unlike(cloud, found->z_1, i);
    }
    return cloud_root(cloud, CLOUD_WIDER_1);
}

enum status search_best(const struct plan *p, struct found *found, struct cloud *cloud)
{
    double g[FORECAST_UNKNOWNS], dz[FORECAST_UNKNOWNS], moved = 1;
    double slope[FORECAST_UNKNOWNS][PART_OBS] = {{0}};
    struct misfit m = {.p = p};
    *found = (struct found){.z_1 = {0}};
    *cloud = (struct cloud){.dims = p->dims};
    enum status st = misfit_at(found->z_1, &m);
    for (int k = 0; k < SEARCH_STEPS && st == STATUS_OK && moved > SEARCH_DONE_1; k++) {
        if (moved > SEARCH_ANEW_1) {
            st = slopes_at(&m, found->z_1, slope);
        }
        if (st == STATUS_OK) {
            normal_at(&m, found->z_1, slope, cloud->root_1, g);
            st = newton_step(p->dims, cloud->root_1, g, dz);
        }
        if (st == STATUS_OK) {
            st = go(&m, found->z_1, dz, &moved);
        }
    }
    return st == STATUS_OK ? settle(&m, found, cloud) : st;
}

enum status cloud_of_members(const struct forecast *f, int members, struct cloud *cloud)
{
    int n = cloud->dims;
    struct cloud made = {.dims = n};
    for (int m = 0; m < members; m++) {
        for (int d = 0; d < n; d++) {
            made.centre_1[d] += f->weight_1[m] * f->z_1[m][d];
        }
    }
    for (int d = 0; d < n; d++) {
        for (int e = 0; e < n; e++) {
            double own = 0, old = 0;
            for (int m = 0; m < members; m++) {
                own += f->weight_1[m] * (f->z_1[m][d] - made.centre_1[d]) *
                       (f->z_1[m][e] - made.centre_1[e]);
            }
            for (int k = 0; k <= (d < e ? d : e); k++) {
                old += cloud->root_1[d][k] * cloud->root_1[e][k];
            }
            made.root_1[d][e] = CLOUD_BLEND_1 * own + (1 - CLOUD_BLEND_1) * old;
        }
    }
    enum status st = cloud_root(&made, CLOUD_MEMBER_1);
    if (st == STATUS_OK) {
        *cloud = made;
    }
    return st;
}

void cloud_draw(const struct cloud *c, const double draw[], double tail, double z[])
{
    for (int d = 0; d < c->dims; d++) {
        double sum = 0;
        for (int e = 0; e <= d; e++) {
            sum += c->root_1[d][e] * draw[e];
        }
        z[d] = c->centre_1[d] + tail * sum;
    }
}

double cloud_log_density(const struct cloud *c, const double z[])
{
    double y[FORECAST_UNKNOWNS], dist = 0, square = 0;
    for (int d = 0; d < c->dims; d++) {
        y[d] = z[d] - c->centre_1[d];
        for (int e = 0; e < d; e++) {
            y[d] -= c->root_1[d][e] * y[e];
        }
        y[d] /= c->root_1[d][d];
        dist += y[d] * y[d];
        square += z[d] * z[d];
    }
    double nu = CLOUD_FREEDOM_1, n = c->dims;
    double t = lgamma(0.5 * (nu + n)) - lgamma(0.5 * nu) - 0.5 * n * log(nu * 0.5) -
               c->log_volume_1 - 0.5 * (nu + n) * log1p(dist / nu) + 0.5 * square;
    double a = log1p(-CLOUD_PRIOR_1) + t, b = log(CLOUD_PRIOR_1);
    double top = fmax(a, b);
    return top + log(exp(a - top) + exp(b - top));
}
