/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is told of the fit, before it is put into words: the sign it gets, the counts to weave and
 * the chance of each. Verdict and odds are weighed here once, so that screen, sheet and tool cannot
 * say that it fits beside a chance that says otherwise. */
#pragma once

#include "project/project.h"

/* A count is called right from here on (common practice, no source); below it the try-on decides.
 */
#define BW_FIT_SURE 0.6
/* A count that closes as surely as this is the safer one to plan with (common practice, no source).
 */
#define BW_FIT_SAFER 0.8

typedef enum {
  BW_SIGN_SNUG,           /* it fits, by the measurements and by the odds */
  BW_SIGN_NEAR_EVEN,      /* the try-on decides, or the stone is still the example */
  BW_SIGN_LOOSE,          /* it closes and does not grip */
  BW_SIGN_WILL_NOT_CLOSE, /* also an odd number of rows */
} BwFitSign;

typedef struct {
  BwFitSign sign;
  BwVerdict verdict; /* by the measurements alone */
  gboolean example;  /* the stone is still the one a new project begins with */
  int rows;          /* the project's own */
  double right;      /* the chance that they are the right count */
  double closes;     /* that they close: right, or too long */
  /* The likeliest run of counts that has BW_FIT_SURE together; 0 when no count stands out. */
  int first_rows, last_rows, likely_rows; /* likely: the likeliest of them */
  double run, likely;                     /* the chance of the run, and of the likeliest */
  double second;                          /* of the other one, where the run has two; else 0 */
  int safer_rows; /* the fewest rows that close with BW_FIT_SAFER; 0: none is listed */
  double safer;   /* the chance that they close, told low by what is not listed */
  int try_on_row;
  int rows_done; /* as the project has them; what they rule out is not advised any more */
} BwFitTold;

/* fit and forecast are those of one design. */
void bw_fit_told_init (BwFitTold *told, const BwFit *fit, const BwForecast *forecast,
                       gboolean example);
/* The same of a project. */
BwFitTold bw_fit_told (BwProject *project);

/* Whether all rows that are planned are woven. */
gboolean bw_fit_told_is_woven (const BwFitTold *told);
/* Whether a remedy makes it snug, or the odds better where it fits on paper already. */
gboolean bw_fit_told_helps (const BwFitTold *told, const BwRemedy *remedy);
/* Whether it is one of the counts to weave: then the try-on decides, whatever paper says. */
gboolean bw_fit_told_is_likely (const BwFitTold *told, const BwRemedy *remedy);
