/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The output room draws pages and the preview draws the piece; here the pictures of the one are
 * handed to the other. */
#include "config.h"

#include "tool/paper.h"
#include "tool/workshop.h"

#include "output/chart/chart.h"
#include "output/page/sheet.h"
#include "output/sheet/sheet-answer.h"
#include "output/sheet/tags.h"
#include "preview/picture/portrait.h"

#include <glib/gi18n-lib.h>

static char *
write_sheet (BwSheet *taken, const char *path, GError **error)
{
  g_autoptr (BwSheet) sheet = taken;
  return bw_sheet_write_pdf (sheet, path, error) ? g_strdup ("") : NULL;
}

static BwPaper
wished (const BwOptions *options)
{
  BwPaper paper = options->paper;
  paper.wishes = (options->given & BW_OPTION_LARGE ? BW_PRINT_LARGE : 0)
                 | (options->given & BW_OPTION_SPARING ? BW_PRINT_SPARING : 0)
                 | (options->given & BW_OPTION_COSTS ? BW_PRINT_COSTS : 0)
                 | (options->units == BW_UNIT_INCH ? BW_PRINT_INCHES : 0);
  return paper;
}

char *
bw_paper_run_sheet (BwProject *project, const BwOptions *options, GError **error)
{
  if (!bw_workshop_know (options, error))
    return NULL;
  if (options->given & BW_OPTION_JSON)
    return bw_report_sheet (project);
  cairo_surface_t *hanging
      = bw_portrait_new (project, BW_PORTRAIT_HANGING, BW_PORTRAIT_SIDE, error),
      *join = NULL;
  if (hanging)
    join = bw_portrait_new (project, BW_PORTRAIT_JOIN, BW_PORTRAIT_SIDE, error);
  if (!join) {
    g_clear_pointer (&hanging, cairo_surface_destroy);
    return NULL;
  }
  BwPaper paper = wished (options);
  BwSheet *sheet = options->kit > 0 ? bw_kit_new (project, paper, options->kit, hanging)
                                    : bw_sheet_new (project, paper, hanging, join);
  cairo_surface_destroy (hanging);
  cairo_surface_destroy (join);
  return write_sheet (sheet, options->output, error);
}

char *
bw_paper_run_tags (BwProject *project, const BwOptions *options, GError **error)
{
  cairo_surface_t *hanging
      = bw_portrait_new (project, BW_PORTRAIT_HANGING, BW_PORTRAIT_SIDE, error);
  if (!hanging)
    return NULL;
  BwSheet *sheet = bw_tags_new (project, wished (options), hanging);
  cairo_surface_destroy (hanging);
  return write_sheet (sheet, options->output, error);
}

char *
bw_paper_run_listing (BwProject *project, const BwOptions *options, GError **error)
{
  cairo_surface_t *hanging = bw_portrait_new (project, BW_PORTRAIT_HANGING, BW_LISTING_SIDE, error);
  if (!hanging)
    return NULL;
  g_autoptr (BwSheet) listing = bw_listing_new (project, hanging);
  cairo_surface_destroy (hanging);
  return bw_listing_write (listing, options->output, error) ? g_strdup ("") : NULL;
}

char *
bw_paper_run_strip (BwProject *project, const BwOptions *options, GError **error)
{
  return write_sheet (bw_strip_new (project, wished (options)), options->output, error);
}

/* What kind of picture is the caller's to say, by the file's name. */
char *
bw_paper_run_chart (BwProject *project, const BwOptions *options, GError **error)
{
  if (!bw_chart_knows (options->output)) {
    g_set_error (error, BW_USAGE, BW_USAGE_WRONG, _ ("%s: the name must end in .svg, .png or .pdf"),
                 options->output);
    return NULL;
  }
  return bw_chart_write (project, options->output, error) ? g_strdup ("") : NULL;
}
