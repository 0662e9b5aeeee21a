/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The chart as a picture. SVG is written by hand: one symbol a colour and one element a bead,
 * small, and open to be read and changed by other programs. PNG is drawn as on paper. */
#include "config.h"

#include "output/chart/chart.h"

#include "core/pattern/tint.h"
#include "core/base/lattice.h"
#include "project/json/json-write.h"
#include "project/piece-name.h"
#include "output/chart/chart-stone.h"
#include "output/chart/mark.h"
#include "output/page/page.h"
#include "output/page/whole-file.h"

#include <cairo-pdf.h>
#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#define PITCH 16.0     /* of the SVG's beads, in its user units */
#define EDGE 26.0      /* room round the beads for the numbers */
#define KEY_STEP 130.0 /* from colour to colour of the key */
#define KEY_ROW 40.0   /* from thread to thread, with the names between */
#define STONE_TALL 150.0
#define STONE_GAP 20.0
#define RIBBON 16.0    /* the faces' ribbon, with air */
#define KEY_LETTERS 24 /* of a name */

static double
column_unit (const BwDesign *design)
{
  return PITCH * design->gauge.column_mm / design->gauge.pitch_mm;
}

static void
put (GString *svg, const char *name, double value)
{
  g_string_append_printf (svg, " %s=\"", name);
  bw_json_append_number (svg, round (value * 1000) / 1000 + 0.0);
  g_string_append_c (svg, '"');
}

static void
append_symbol (GString *svg, const BwTray *tray, int colour, double height)
{
  int n;
  const BwMarkStroke *stroke = bw_mark_strokes (colour, &n);
  guint32 srgb = tray->colour[colour].srgb, ink = bw_mark_ink (srgb);
  char letter[BW_TRAY_LETTER];
  bw_tray_print_letter (tray, colour, letter);
  g_autofree char *name = bw_sheet_one_line (tray->colour[colour].name);
  g_autofree char *title = g_markup_escape_text (name, -1);
  g_string_append_printf (svg, "<g id=\"c%d\"><title>%s</title><rect", colour, title);
  put (svg, "width", PITCH - 0.8);
  put (svg, "height", height - 0.8);
  g_string_append_printf (svg,
                          " x=\"0.4\" y=\"0.4\" rx=\"2\" fill=\"#%06x\" stroke=\"#333\" "
                          "stroke-width=\"0.4\"/>",
                          srgb);
  for (int i = 0; i < n; i++) {
    g_string_append (svg, "<path d=\"M");
    bw_json_append_number (svg, stroke[i].x0 * PITCH);
    g_string_append_c (svg, ' ');
    bw_json_append_number (svg, stroke[i].y0 * height);
    g_string_append_c (svg, 'L');
    bw_json_append_number (svg, stroke[i].x1 * PITCH);
    g_string_append_c (svg, ' ');
    bw_json_append_number (svg, stroke[i].y1 * height);
    g_string_append_printf (svg, "\" stroke=\"#%06x\" stroke-linecap=\"round\"", ink);
    put (svg, "stroke-width", bw_mark_stroke_width (&stroke[i]) * height);
    g_string_append (svg, "/>");
  }
  g_string_append_printf (svg, "<text text-anchor=\"middle\" fill=\"#%06x\"", ink);
  put (svg, "font-size", 0.6 * height);
  put (svg, "x", PITCH / 2);
  put (svg, "y", 0.7 * height);
  g_string_append_printf (svg, ">%s</text></g>\n", letter);
}

static void
append_bead (GString *svg, const BwTray *tray, int colour, int row, int column, double x, double y)
{
  char letter[7] = { 0 };
  g_unichar_to_utf8 (tray->colour[colour].id, letter);
  g_autofree char *text = g_markup_escape_text (letter, -1);
  g_string_append_printf (svg,
                          "<use class=\"bead\" xlink:href=\"#c%d\" data-row=\"%d\" "
                          "data-column=\"%d\" data-letter=\"%s\"",
                          colour, row, column, text);
  put (svg, "x", x);
  put (svg, "y", y);
  g_string_append (svg, "/>");
}

static void
append_row_number (GString *svg, int row, gboolean up, double x, double low)
{
  for (int line = 0; line < 2; line++) {
    g_autofree char *number = g_strdup_printf ("%d", row);
    g_string_append (svg, "<text class=\"number\" text-anchor=\"middle\"");
    put (svg, "x", x + PITCH / 2);
    put (svg, "y", up ? low + 9 + 8 * line : EDGE - 12 + 8 * line);
    g_string_append_printf (svg, ">%s</text>", (line == 0) == up ? (up ? "↑" : "↓") : number);
  }
}

static void
append_columns (GString *svg, int columns, double height)
{
  for (int column = 1; column <= columns; column++) {
    g_string_append (svg, "<text class=\"number\" text-anchor=\"end\"");
    put (svg, "x", EDGE - 4);
    put (svg, "y", EDGE + (columns - column + 0.7) * height);
    g_string_append_printf (svg, ">%d</text>\n", column);
  }
}

static void
append_beads (GString *svg, BwProject *project, double height)
{
  const BwDrawing *drawing = bw_project_get_drawing (project);
  const BwTray *tray = bw_project_get_tray (project);
  int columns = bw_drawing_columns (drawing);
  for (int row = 1; row <= bw_drawing_rows (drawing); row++) {
    double x = EDGE + (row - 1) * PITCH / 2;
    g_string_append_printf (svg, "<g id=\"row-%d\">", row);
    for (int j = 0; j < columns / 2; j++) {
      int column = bw_lattice_column (row, j);
      append_bead (svg, tray, bw_drawing_get (drawing, row, column), row, column, x,
                   EDGE + (columns - column) * height);
    }
    append_row_number (svg, row, bw_lattice_direction (row) > 0, x, EDGE + columns * height);
    g_string_append (svg, "</g>\n");
  }
}

/* The colours the band has, in the order of the tray. Returns how many. */
static int
used_colours (BwProject *project, int colours[BW_TRAY_MAX])
{
  guint64 counts[256] = { 0 };
  int n = 0;
  bw_drawing_count (bw_project_get_drawing (project), counts);
  for (int i = 0; i < bw_project_get_tray (project)->n_colours; i++)
    if (counts[i] > 0)
      colours[n++] = i;
  return n;
}

/* How a key of so many colours is laid out in this width. */
static int
key_columns (int n, double width, double step)
{
  return CLAMP ((int)floor (width / step), 1, n);
}

/* A name as the key has it, its end cut off when it is long. Owned. */
static char *
key_name (const BwColour *colour)
{
  g_autofree char *line = bw_sheet_one_line (colour->name);
  if (g_utf8_strlen (line, -1) <= KEY_LETTERS)
    return g_strdup (line);
  g_autofree char *start = g_utf8_substring (line, 0, KEY_LETTERS - 1);
  return g_strconcat (start, "…", NULL);
}

/* Which way the faces lie under the rows, in a ribbon below their numbers. */
static void
append_faces (GString *svg, BwProject *project, double y)
{
  int rows = bw_project_get_design (project)->band.rows;
  g_autoptr (GArray) faces = bw_chart_faces (project, 0, rows + 1);
  for (guint i = 0; i < faces->len; i++) {
    const BwChartFace *face = &g_array_index (faces, BwChartFace, i);
    double x = EDGE + face->from_row * PITCH / 2,
           width = (face->to_row - face->from_row) * PITCH / 2;
    g_autofree char *name = g_strdup_printf (_ ("face %d"), face->face + 1);
    g_string_append_printf (svg, "<rect class=\"face\" data-face=\"%d\"", face->face + 1);
    put (svg, "x", x);
    put (svg, "y", y);
    put (svg, "width", width);
    put (svg, "height", RIBBON - 4);
    g_string_append_printf (svg, " fill=\"#%06x\" stroke=\"#%06x\" stroke-width=\"0.4\"/>",
                            bw_tint_srgb (face->face % 2 ? BW_TINT_SHADE : BW_TINT_WASH, FALSE),
                            bw_tint_srgb (BW_TINT_HAIR, FALSE));
    if (width < 36)
      continue;
    g_string_append (svg, "<text class=\"number\" text-anchor=\"middle\"");
    put (svg, "x", x + width / 2);
    put (svg, "y", y + RIBBON - 7);
    g_string_append_printf (svg, ">%s</text>\n", name);
  }
}

static void
append_stone (GString *svg, const GArray *shapes, double x, double y, double scale)
{
  g_string_append (svg, "<g class=\"stone\">");
  for (guint i = 0; i < shapes->len; i++) {
    const BwStoneShape *shape = &g_array_index (shapes, BwStoneShape, i);
    g_string_append (svg, "<path d=\"M");
    for (int k = 0; k < shape->n; k++) {
      bw_json_append_number (svg, round (100 * (x + shape->x[k] * scale)) / 100 + 0.0);
      g_string_append_c (svg, ' ');
      bw_json_append_number (svg, round (100 * (y + shape->y[k] * scale)) / 100 + 0.0);
      g_string_append_c (svg, k + 1 < shape->n ? 'L' : shape->is_line ? '"' : 'Z');
    }
    if (shape->is_line)
      g_string_append_printf (svg, " stroke=\"#%06x\" stroke-width=\"0.6\" fill=\"none\"/>",
                              shape->srgb);
    else
      g_string_append_printf (svg, "\" fill=\"#%06x\"/>", shape->srgb);
  }
  g_string_append (svg, "</g>\n");
}

/* The thread of one line of the key, n beads strung: seen between them, as thread is. */
static void
append_thread (GString *svg, int n, double y)
{
  g_string_append (svg, "<path class=\"thread\" fill=\"none\" d=\"");
  for (int i = 0; i <= n; i++) {
    double from = i == 0 ? EDGE - 10 : EDGE + (i - 1) * KEY_STEP + PITCH;
    double to = i < n ? EDGE + i * KEY_STEP : EDGE + n * KEY_STEP - 20;
    g_string_append_c (svg, 'M');
    bw_json_append_number (svg, from);
    g_string_append_c (svg, ' ');
    bw_json_append_number (svg, y);
    g_string_append_c (svg, 'L');
    bw_json_append_number (svg, to);
    g_string_append_c (svg, ' ');
    bw_json_append_number (svg, y);
  }
  g_string_append_printf (svg, "\" stroke=\"#%06x\" stroke-width=\"1.2\"/>\n",
                          bw_tint_srgb (BW_TINT_TIDE, FALSE));
}

/* What the letters mean: the colours strung on a thread, their names below them. */
static void
append_key (GString *svg, BwProject *project, double y, double width, double height)
{
  const BwTray *tray = bw_project_get_tray (project);
  int colours[BW_TRAY_MAX], n = used_colours (project, colours);
  int columns = key_columns (n, width, KEY_STEP);
  for (int i = 0; i < n; i += columns)
    append_thread (svg, MIN (columns, n - i), y + i / columns * KEY_ROW + height / 2);
  for (int i = 0; i < n; i++) {
    double x = EDGE + i % columns * KEY_STEP, low = y + i / columns * KEY_ROW;
    g_autofree char *name = key_name (&tray->colour[colours[i]]);
    g_autofree char *text = g_markup_escape_text (name, -1);
    g_string_append_printf (svg, "<use class=\"key\" xlink:href=\"#c%d\"", colours[i]);
    put (svg, "x", x);
    put (svg, "y", low);
    g_string_append (svg, "/><text font-size=\"9\" fill=\"#222\"");
    put (svg, "x", x);
    put (svg, "y", low + height + 11);
    g_string_append_printf (svg, ">%s</text>\n", text);
  }
}

static double
key_height (BwProject *project, double width, double step, double row)
{
  int colours[BW_TRAY_MAX], n = used_colours (project, colours);
  int columns = key_columns (n, width, step);
  return (n + columns - 1) / columns * row;
}

/* Where what lies below the beads has its place. */
typedef struct {
  GArray *stone; /* shapes */
  double stone_width, scale;
  double key_width, height;
} Foot;

static Foot
foot_of (BwProject *project, double along, double step, double row, double tall, double gap)
{
  double width_mm, height_mm;
  Foot foot = { .stone = bw_chart_stone (project, &width_mm, &height_mm) };
  foot.scale = MIN (tall / height_mm, along / 2 / width_mm);
  foot.stone_width = width_mm * foot.scale;
  foot.key_width = along - foot.stone_width - gap;
  foot.height = MAX (height_mm * foot.scale, key_height (project, foot.key_width, step, row));
  return foot;
}

char *
bw_chart_svg (BwProject *project)
{
  const BwDesign *design = bw_project_get_design (project);
  const BwTray *tray = bw_project_get_tray (project);
  g_autofree char *name = bw_piece_name (project);
  g_autofree char *line = bw_sheet_one_line (name);
  g_autofree char *escaped = g_markup_escape_text (line, -1);
  double height = column_unit (design);
  double width = 2 * EDGE + (design->band.rows + 1) * PITCH / 2;
  width = MAX (width, 2 * EDGE + 2 * KEY_STEP);
  double beads = 2 * EDGE + design->band.columns * height, along = width - 2 * EDGE;
  Foot foot = foot_of (project, along, KEY_STEP, KEY_ROW, STONE_TALL, STONE_GAP);
  GString *svg = g_string_new ("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
                               "<svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\" "
                               "xmlns:xlink=\"http://www.w3.org/1999/xlink\"");
  put (svg, "width", width);
  put (svg, "height", beads + RIBBON + foot.height + 14);
  g_string_append_printf (svg,
                          ">\n<title>%s</title>\n<style>text{font-family:sans-serif}"
                          ".number{font-size:7px;fill:#222}</style>\n<defs>\n",
                          escaped);
  for (int colour = 0; colour < tray->n_colours; colour++)
    append_symbol (svg, tray, colour, height);
  g_string_append (svg, "</defs>\n<rect width=\"100%\" height=\"100%\" fill=\"#fff\"/>\n");
  append_columns (svg, design->band.columns, height);
  append_beads (svg, project, height);
  append_faces (svg, project, beads - 2);
  append_key (svg, project, beads + RIBBON + 8, foot.key_width, height);
  append_stone (svg, foot.stone, EDGE + foot.key_width + STONE_GAP, beads + RIBBON + 6, foot.scale);
  g_string_append (svg, "</svg>\n");
  g_array_unref (foot.stone);
  return g_string_free (svg, FALSE);
}

/* How a picture is broken into lines. */
typedef struct {
  BwChart chart;
  int rows, columns, rows_a_line, n_lines;
  double width, height; /* of a line */
  double foot;          /* height of what lies below them */
} Lines;

#define PICTURE_STEP 8.5 /* from colour to colour of the key, in pitches */
#define PICTURE_ROW 2.6
#define PICTURE_STONE 10.0
#define PICTURE_GAP 1.5
#define PDF_PITCH 12.0 /* points */
#define MOST_SIDE 30000.0
#define MOST_PIXELS 40e6

static Foot
picture_foot (BwProject *project, double width, double pitch)
{
  return foot_of (project, width - 0.5 * pitch, PICTURE_STEP * pitch, PICTURE_ROW * pitch,
                  PICTURE_STONE * pitch, PICTURE_GAP * pitch);
}

static void
break_lines (Lines *lines, BwProject *project, double pitch)
{
  const BwDesign *design = bw_project_get_design (project);
  BwChartPart part = { 1, 1, 1, design->band.columns, 0, 0 };
  *lines = (Lines){ .chart = { project, pitch,
                               pitch * design->gauge.column_mm / design->gauge.pitch_mm, FALSE },
                    .rows = design->band.rows,
                    .columns = design->band.columns };
  /* Lines of about the shape of a page, and no shorter than a small band. */
  double tall, one;
  bw_chart_part_size (&lines->chart, &part, &one, &tall);
  double along = sqrt (1.6 * tall * lines->rows * pitch / 2) / (pitch / 2);
  lines->rows_a_line = (int)CLAMP (along, MIN (160, lines->rows), lines->rows);
  lines->n_lines = (lines->rows + lines->rows_a_line - 1) / lines->rows_a_line;
  part.last_row = lines->rows_a_line;
  bw_chart_part_size (&lines->chart, &part, &lines->width, &lines->height);
  lines->width = MAX (lines->width, 2 * PICTURE_STEP * pitch);
  Foot foot = picture_foot (project, lines->width, pitch);
  lines->foot = foot.height + 1.5 * pitch;
  g_array_unref (foot.stone);
}

/* As large as reads well, as small as a picture of this size must be. */
static void
choose_lines (Lines *lines, BwProject *project)
{
  for (double pitch = 24; pitch > 0.5; pitch *= 0.8) {
    break_lines (lines, project, pitch);
    double tall = lines->height * lines->n_lines + lines->foot;
    if (lines->width < MOST_SIDE && tall < MOST_SIDE && lines->width * tall < MOST_PIXELS)
      return;
  }
}

static void
draw_key (const Lines *lines, cairo_t *cr, double width)
{
  const BwTray *tray = bw_project_get_tray (lines->chart.project);
  double pitch = lines->chart.pitch, step = PICTURE_STEP * pitch, half = lines->chart.column / 2;
  int colours[BW_TRAY_MAX], n = used_colours (lines->chart.project, colours);
  int columns = key_columns (n, width, step);
  for (int i = 0; i < n; i += columns) {
    double y = (i / columns * PICTURE_ROW + 0.3) * pitch + half;
    cairo_move_to (cr, 0.2 * pitch, y);
    cairo_line_to (cr, (MIN (columns, n - i) - 0.1) * step, y);
  }
  cairo_set_source_rgb (cr, BW_ON_PAPER (TIDE));
  cairo_set_line_width (cr, 0.07 * pitch);
  cairo_stroke (cr);
  for (int i = 0; i < n; i++) {
    g_autofree char *name = key_name (&tray->colour[colours[i]]);
    cairo_save (cr);
    cairo_translate (cr, (i % columns + 0.1) * step, (i / columns * PICTURE_ROW + 0.3) * pitch);
    bw_mark_draw_whole (cr, tray, colours[i], 0, 0, pitch, lines->chart.column);
    cairo_translate (cr, 0, lines->chart.column + 0.12 * pitch);
    cairo_scale (cr, pitch / 16, pitch / 16);
    bw_type_draw (cr, BW_TYPE_TEXT, name, 0, 0, 0);
    cairo_restore (cr);
  }
}

static void
draw_foot (const Lines *lines, cairo_t *cr)
{
  double pitch = lines->chart.pitch;
  Foot foot = picture_foot (lines->chart.project, lines->width, pitch);
  cairo_translate (cr, 0, 0.5 * pitch);
  draw_key (lines, cr, foot.key_width);
  cairo_translate (cr, foot.key_width + PICTURE_GAP * pitch, 0);
  bw_chart_stone_draw (foot.stone, cr, foot.scale);
  g_array_unref (foot.stone);
}

static double
picture_height (const Lines *lines)
{
  return lines->height * lines->n_lines + lines->foot;
}

static void
draw_picture (const Lines *lines, cairo_t *cr)
{
  cairo_set_source_rgb (cr, BW_ON_PAPER (SHEET));
  cairo_paint (cr);
  for (int i = 0; i < lines->n_lines; i++) {
    BwChartPart part = { 1 + i * lines->rows_a_line,
                         MIN (lines->rows, (i + 1) * lines->rows_a_line),
                         1,
                         lines->columns,
                         0,
                         0 };
    bw_chart_draw (&lines->chart, &part, cr);
    cairo_translate (cr, 0, lines->height);
  }
  draw_foot (lines, cr);
}

static gboolean
write_png (BwProject *project, const char *path, GError **error)
{
  g_autoptr (GByteArray) bytes = g_byte_array_new ();
  Lines lines;
  choose_lines (&lines, project);
  cairo_surface_t *surface = cairo_image_surface_create (
      CAIRO_FORMAT_RGB24, (int)ceil (lines.width), (int)ceil (picture_height (&lines)));
  cairo_t *cr = cairo_create (surface);
  draw_picture (&lines, cr);
  cairo_destroy (cr);
  cairo_status_t status = cairo_surface_write_to_png_stream (surface, bw_whole_file_append, bytes);
  cairo_surface_destroy (surface);
  return bw_whole_file_write (bytes, status, path, error);
}

/* One page as large as the chart: it is looked at, and scaled by whoever prints it. */
static gboolean
write_pdf (BwProject *project, const char *path, GError **error)
{
  g_autoptr (GByteArray) bytes = g_byte_array_new ();
  g_autofree char *name = bw_piece_name (project);
  g_autofree char *line = bw_sheet_one_line (name);
  Lines lines;
  choose_lines (&lines, project);
  double scale = PDF_PITCH / lines.chart.pitch;
  cairo_surface_t *surface = cairo_pdf_surface_create_for_stream (
      bw_whole_file_append, bytes, lines.width * scale, picture_height (&lines) * scale);
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_TITLE, line);
  cairo_t *cr = cairo_create (surface);
  cairo_scale (cr, scale, scale);
  draw_picture (&lines, cr);
  cairo_destroy (cr);
  cairo_surface_finish (surface);
  cairo_status_t status = cairo_surface_status (surface);
  cairo_surface_destroy (surface);
  return bw_whole_file_write (bytes, status, path, error);
}

static gboolean
write_svg (BwProject *project, const char *path, GError **error)
{
  g_autoptr (GByteArray) bytes = g_byte_array_new ();
  g_autofree char *svg = bw_chart_svg (project);
  g_byte_array_append (bytes, (const guint8 *)svg, (guint)strlen (svg));
  return bw_whole_file_write (bytes, CAIRO_STATUS_SUCCESS, path, error);
}

static gboolean
ends_with (const char *path, const char *end)
{
  gsize length = strlen (path), own = strlen (end);
  return length > own && g_ascii_strcasecmp (path + length - own, end) == 0;
}

gboolean
bw_chart_knows (const char *path)
{
  return ends_with (path, ".svg") || ends_with (path, ".png") || ends_with (path, ".pdf");
}

gboolean
bw_chart_write (BwProject *project, const char *path, GError **error)
{
  if (ends_with (path, ".png"))
    return write_png (project, path, error);
  if (ends_with (path, ".pdf"))
    return write_pdf (project, path, error);
  if (ends_with (path, ".svg"))
    return write_svg (project, path, error);
  g_set_error (error, G_IO_ERROR, G_IO_ERROR_INVALID_FILENAME,
               _ ("%s: the name must end in .svg, .png or .pdf"), path);
  return FALSE;
}
