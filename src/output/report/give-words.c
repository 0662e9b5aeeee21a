/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "output/report/give-words.h"

#include <glib/gi18n-lib.h>

char *
bw_give_words (BwGive give)
{
  return g_strdup_printf (_ ("%.1f %% ± %.1f %%"), 100 * give.share, 100 * give.sd);
}

static const char *
source (gboolean from_hands, gboolean measured)
{
  if (from_hands && measured)
    return _ ("by the pieces you have woven and what you measured");
  return from_hands ? _ ("by the pieces you have woven") : _ ("by what you measured");
}

/* Translators: the first %s is a share with its error, the second says where it comes from. */
static char *
bed_words (const BwBed *bed)
{
  g_autofree char *share = bw_give_words ((BwGive){ bed->squeeze, bed->squeeze_sd });
  return g_strdup_printf (_ ("Under the pulled band it gives %s, %s."), share,
                          source (bed->has_hands, bed->has_pulled));
}

static char *
thread_words (const BwThread *thread)
{
  g_autofree char *share = bw_give_words ((BwGive){ thread->stretch, thread->stretch_sd });
  return g_strdup_printf (_ ("The thread stretches by %s, %s."), share,
                          source (thread->has_hands, thread->has_pulled));
}

char *
bw_give_words_learnt (const BwDesign *design)
{
  g_autofree char *bed = design->bed.squeeze_sd > 0 ? bed_words (&design->bed) : NULL;
  g_autofree char *thread = design->thread.stretch_sd > 0 ? thread_words (&design->thread) : NULL;
  if (bed && thread)
    return g_strconcat (bed, " ", thread, NULL);
  return bed ? g_steal_pointer (&bed) : g_steal_pointer (&thread);
}

static char *
pieces_words (int pieces)
{
  return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%d piece", "%d pieces", (gulong)pieces),
                          pieces);
}

/* Translators: a thickness, a share with its error, and how many pieces say so. */
char *
bw_give_words_thread (const BwBookGive *thread, BwUnit unit)
{
  g_autofree char *size = bw_length_format (thread->mm, unit, 2);
  g_autofree char *share = bw_give_words (thread->next), *pieces = pieces_words (thread->pieces);
  return g_strdup_printf (_ ("Thread of %s stretches by %s (%s)."), size, share, pieces);
}

/* Translators: a width, a share with its error, and how many pieces say so. */
char *
bw_give_words_cord (const BwBookGive *cord, BwUnit unit)
{
  g_autofree char *size = bw_length_format (cord->mm, unit, 2);
  g_autofree char *share = bw_give_words (cord->next), *pieces = pieces_words (cord->pieces);
  return g_strdup_printf (_ ("A bed of cord %s wide gives %s (%s)."), size, share, pieces);
}
