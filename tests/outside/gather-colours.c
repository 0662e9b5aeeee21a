/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reads "n k" and n colours "L a b"; prints the cost that gathering them round k leaves. */
#include "core/pattern/kmeans.h"

#include <stdio.h>

int
main (void)
{
  unsigned n;
  int k;
  BwKMeans means;
  if (scanf ("%u %d", &n, &k) != 2 || n < 1)
    return 1;
  g_autofree BwLab *colours = g_new (BwLab, n);
  for (unsigned i = 0; i < n; i++)
    if (scanf ("%lf %lf %lf", &colours[i].L, &colours[i].a, &colours[i].b) != 3)
      return 1;
  if (!bw_kmeans_find (&means, colours, n, k, NULL, NULL))
    return 1;
  printf ("%d %.17g\n", means.k, means.cost);
  return 0;
}
