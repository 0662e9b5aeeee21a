/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Many colours gathered round a few: k-means in CIELAB (S. P. Lloyd, IEEE Transactions on
 * Information Theory 28(2), 1982, 129–137), begun as k-means++ (D. Arthur, S. Vassilvitskii,
 * Proceedings of SODA 2007, 1027–1035) from several beginnings, of which the best counts. The
 * beginnings come from a fixed seed: the same colours always give the same answer. */
#pragma once

#include "core/pattern/colour.h"
#include "core/pattern/mapping.h"

#define BW_KMEANS_MAX 24

typedef struct {
  int k;                       /* 1..BW_KMEANS_MAX; fewer than asked for where no more differ */
  BwLab centre[BW_KMEANS_MAX]; /* that of most colours first */
  guint count[BW_KMEANS_MAX];  /* how many colours are nearest to it */
  double cost;                 /* mean square distance of a colour from its centre */
} BwKMeans;

/* n ≥ 1 colours, 1 ≤ k. FALSE when stopped. */
gboolean bw_kmeans_find (BwKMeans *means, const BwLab *colours, guint n, int k, BwGoOn go_on,
                         gpointer data);

/* The k of 1..most that the colours themselves suggest: 1 where they hardly differ, else that of
 * the greatest simplified silhouette, each centre's colours weighing alike (P. J. Rousseeuw,
 * Journal of Computational and Applied Mathematics 20, 1987, 53–65; distances to centres in place
 * of those to all colours). */
gboolean bw_kmeans_suggest (BwKMeans *means, const BwLab *colours, guint n, int most, BwGoOn go_on,
                            gpointer data);
