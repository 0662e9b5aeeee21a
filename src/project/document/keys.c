/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every key of the file that fills a field of BwDesign, in the order it is written. */
#include "config.h"

#include "project/document/keys.h"
#include <string.h>

static const char *const measured_words[] = { "across-flats", "face-widths", "girth", NULL };
static const char *const base_words[] = { "flat", "point", NULL };
static const char *const base_surface_words[] = { "plain", "frosted", "broken", NULL };
static const char *const bail_words[] = { "none", "flap", "upright", "ring", "over", NULL };
static const char *const closing_words[] = { "knot", "sliding", "clasp", NULL };

#define FIELD(part, field) #field, .offset = offsetof(BwDesign, part.field)
#define HAS(part, field) .has = offsetof (BwDesign, part.field)
#define NUMBER(part, field) FIELD (part, field), .kind = BW_KEY_NUMBER
#define WHOLE(part, field, least, most)                                                            \
  FIELD (part, field), .kind = BW_KEY_WHOLE, .lo = least, .hi = most
#define WORD(part, field, list) FIELD (part, field), .kind = BW_KEY_WORD, .words = list
#define TEXT(part, field, bytes) FIELD (part, field), .kind = BW_KEY_TEXT, .hi = bytes
#define PAIR(part, field) FIELD (part, field), .kind = BW_KEY_PAIR
#define REQUIRED .required = TRUE

static const BwKey stone_keys[] = {
  { NUMBER (stone, density_g_cm3) },
  { WHOLE (stone, faces, BW_FACES_MIN, BW_FACES_MAX), REQUIRED },
  { WORD (stone, measured, measured_words), REQUIRED },
  { FIELD (stone, values_mm), .kind = BW_KEY_VALUES, REQUIRED },
  { NUMBER (stone, at_mm), REQUIRED },
  { NUMBER (stone, second_girth_mm), HAS (stone, has_second) },
  { NUMBER (stone, second_at_mm), .when = BW_IF_SECOND_GIRTH },
  { NUMBER (stone, length_mm), REQUIRED },
  { NUMBER (stone, shoulder_mm), HAS (stone, has_shoulder) },
  { NUMBER (stone, natural_angle_deg), HAS (stone, has_natural_angle) },
  { PAIR (stone, apex_offset_mm) },
  { WORD (stone, base, base_words) },
  { NUMBER (stone, base_shoulder_mm), HAS (stone, has_base_shoulder), .when = BW_IF_BASE_POINT },
  { PAIR (stone, base_apex_offset_mm), .when = BW_IF_BASE_POINT },
  { NUMBER (stone, girth_sd_mm) },
};

static const BwKey look_keys[] = {
  { NUMBER (look, growth_lines) },
  { NUMBER (look, veils) },
  { NUMBER (look, needles) },
  { NUMBER (look, chips) },
  { WORD (look, base, base_surface_words), .when = BW_IF_BASE_FLAT },
  { WHOLE (look, seed, 0, BW_LOOK_SEED_MAX) },
};

static const BwKey bead_keys[] = {
  { TEXT (bead, name, BW_NAME_BYTES) },   { NUMBER (bead, diameter_mm), REQUIRED },
  { NUMBER (bead, length_mm), REQUIRED }, { NUMBER (bead, hole_mm), REQUIRED },
  { NUMBER (bead, glass_g_cm3) },
};

static const BwKey gauge_keys[] = {
  { NUMBER (gauge, column_mm) },
  { NUMBER (gauge, pitch_mm) },
};

static const BwKey hands_keys[] = {
  { NUMBER (gauge.hands, pitch_mm), REQUIRED },
  { NUMBER (gauge.hands, pitch_sd_mm), REQUIRED },
};

static const BwKey swatch_keys[] = {
  { WHOLE (gauge.swatch, columns, 2, BW_COLUMNS_MAX), REQUIRED },
  { NUMBER (gauge.swatch, width_mm), REQUIRED },
  { WHOLE (gauge.swatch, rows, 2, BW_ROWS_MAX), REQUIRED },
  { NUMBER (gauge.swatch, length_mm), REQUIRED },
  { WORD (gauge.swatch, tool, bw_strip_tool_words) },
};

static const BwKey bed_keys[] = {
  { NUMBER (bed, cord_thickness_mm) },
  { NUMBER (bed, cord_width_mm) },
  { WHOLE (bed, layers, 0, BW_LAYERS_MAX) },
  { NUMBER (bed, girth_over_mm), HAS (bed, has_girth_over) },
  { NUMBER (bed, top_extra_mm) },
  { NUMBER (bed, squeeze) },
  { NUMBER (bed, overhang_mm) },
};

static const BwKey bed_hands_keys[] = {
  { .name = "squeeze",
    .offset = offsetof (BwDesign, bed.hands.share),
    .kind = BW_KEY_NUMBER,
    REQUIRED },
  { .name = "squeeze_sd",
    .offset = offsetof (BwDesign, bed.hands.sd),
    .kind = BW_KEY_NUMBER,
    REQUIRED },
};

static const BwKey bed_pulled_keys[] = {
  { NUMBER (bed.pulled, girth_mm), REQUIRED },
  { NUMBER (bed.pulled, slack_mm), REQUIRED },
  { NUMBER (bed.pulled, pulled_mm), REQUIRED },
  { WORD (bed.pulled, tool, bw_strip_tool_words) },
};

static const BwKey band_keys[] = {
  { WHOLE (band, columns, BW_COLUMNS_MIN, BW_COLUMNS_MAX), REQUIRED },
  { WHOLE (band, rows, BW_ROWS_MIN, BW_ROWS_MAX) },
  { NUMBER (band, bottom_mm) },
  { NUMBER (band, seam_deg) },
};

static const BwKey bail_keys[] = {
  { WORD (bail, style, bail_words) },
  { WHOLE (bail, columns, 2, BW_COLUMNS_MAX), .when = BW_IF_BAIL },
  { WHOLE (bail, rows, BW_ROWS_MIN, BW_ROWS_MAX), .when = BW_IF_BAIL },
  { NUMBER (bail, base_beads), .when = BW_IF_BAIL },
  { NUMBER (bail, at_deg), .when = BW_IF_BAIL },
  { NUMBER (bail, cord_mm), .when = BW_IF_BAIL },
  { NUMBER (bail, clearance_mm), .when = BW_IF_BAIL },
};

static const BwKey thread_keys[] = {
  { NUMBER (thread, diameter_mm) }, { NUMBER (thread, needle_mm) }, { NUMBER (thread, working_mm) },
  { NUMBER (thread, tail_mm) },     { NUMBER (thread, stretch) },
};

static const BwKey thread_hands_keys[] = {
  { .name = "stretch",
    .offset = offsetof (BwDesign, thread.hands.share),
    .kind = BW_KEY_NUMBER,
    REQUIRED },
  { .name = "stretch_sd",
    .offset = offsetof (BwDesign, thread.hands.sd),
    .kind = BW_KEY_NUMBER,
    REQUIRED },
};

static const BwKey thread_pulled_keys[] = {
  { NUMBER (thread.pulled, slack_mm), REQUIRED },
  { NUMBER (thread.pulled, pulled_mm), REQUIRED },
  { WORD (thread.pulled, tool, bw_strip_tool_words) },
};

static const BwKey fit_keys[] = {
  { NUMBER (limits, slack_mm) },
  { NUMBER (limits, friction) },
};

static const BwKey materials_keys[] = {
  { NUMBER (supply, spare) },
  { NUMBER (supply, pack_g) },
  { WHOLE (supply, pieces, 1, BW_PIECES_MAX) },
  { NUMBER (supply, neck_mm) },
  { WORD (supply, closing, closing_words) },
  { NUMBER (supply, closing_mm) },
};

static const BwKey prices_keys[] = {
  { TEXT (supply, currency, BW_CURRENCY_BYTES) },
  { NUMBER (supply, pack) },
  { NUMBER (supply, thread_per_m) },
  { NUMBER (supply, bed_cord_per_m) },
  { NUMBER (supply, stone) },
  { NUMBER (supply, hour) },
  { NUMBER (supply, rows_per_hour) },
  { WHOLE (supply, pace_columns, 0, BW_COLUMNS_MAX) },
  { NUMBER (supply, hanging_cord_per_m) },
  { NUMBER (supply, findings) },
  { NUMBER (supply, markup) },
  { NUMBER (supply, round_to) },
};

#define KEYS(table) .keys = table, .n_keys = G_N_ELEMENTS (table)

static const BwKeyGroup groups[BW_N_GROUPS] = {
  [BW_GROUP_STONE] = { "stone", "/stone", KEYS (stone_keys) },
  [BW_GROUP_LOOK] = { "look", "/stone/look", KEYS (look_keys) },
  [BW_GROUP_BEAD] = { "bead", "/bead", KEYS (bead_keys) },
  [BW_GROUP_GAUGE] = { "gauge", "/gauge", KEYS (gauge_keys) },
  [BW_GROUP_HANDS] = { "hands", "/gauge/hands", HAS (gauge, has_hands), KEYS (hands_keys) },
  [BW_GROUP_SWATCH] = { "swatch", "/gauge/swatch", HAS (gauge, has_swatch), KEYS (swatch_keys) },
  [BW_GROUP_BED] = { "bed", "/bed", KEYS (bed_keys) },
  [BW_GROUP_BED_HANDS] = { "hands", "/bed/hands", HAS (bed, has_hands), KEYS (bed_hands_keys) },
  [BW_GROUP_BED_PULLED]
  = { "pulled", "/bed/pulled", HAS (bed, has_pulled), KEYS (bed_pulled_keys) },
  [BW_GROUP_BAND] = { "band", "/band", KEYS (band_keys) },
  [BW_GROUP_BAIL] = { "bail", "/bail", KEYS (bail_keys) },
  [BW_GROUP_THREAD] = { "thread", "/thread", KEYS (thread_keys) },
  [BW_GROUP_THREAD_HANDS]
  = { "hands", "/thread/hands", HAS (thread, has_hands), KEYS (thread_hands_keys) },
  [BW_GROUP_THREAD_PULLED]
  = { "pulled", "/thread/pulled", HAS (thread, has_pulled), KEYS (thread_pulled_keys) },
  [BW_GROUP_FIT] = { "fit", "/fit", KEYS (fit_keys) },
  [BW_GROUP_MATERIALS] = { "materials", "/materials", KEYS (materials_keys) },
  [BW_GROUP_PRICES]
  = { "prices", "/materials/prices", HAS (supply, has_prices), KEYS (prices_keys) },
};

const BwKeyGroup *
bw_key_group (BwGroupId id)
{
  return &groups[id];
}

gboolean
bw_key_applies (const BwKey *key, const BwDesign *design)
{
  switch (key->when) {
  case BW_IF_SECOND_GIRTH:
    return design->stone.has_second;
  case BW_IF_BASE_POINT:
    return design->stone.base == BW_BASE_POINT;
  case BW_IF_BASE_FLAT:
    return design->stone.base == BW_BASE_FLAT;
  case BW_IF_BAIL:
    return design->bail.style != BW_BAIL_NONE;
  case BW_ALWAYS:
  default:
    return TRUE;
  }
}

static gboolean
flag_is_set (const BwDesign *design, size_t offset)
{
  return offset == 0 || *(const gboolean *)((const char *)design + offset);
}

gboolean
bw_key_is_given (const BwKey *key, const BwDesign *design)
{
  return bw_key_applies (key, design) && flag_is_set (design, key->has);
}

int
bw_key_count (const BwKey *key, const BwDesign *design)
{
  return key->kind == BW_KEY_PAIR
             ? 2
             : bw_stone_value_count (design->stone.measured, design->stone.faces);
}

static gboolean
numbers_equal (const double *a, const double *b, int n)
{
  for (int i = 0; i < n; i++)
    if (a[i] < b[i] || a[i] > b[i])
      return FALSE;
  return TRUE;
}

static gboolean
key_equal (const BwKey *key, const BwDesign *a, const BwDesign *b)
{
  const void *p = bw_key_value (key, a), *q = bw_key_value (key, b);
  gboolean given = bw_key_is_given (key, a);

  if (given != bw_key_is_given (key, b))
    return FALSE;
  if (!given)
    return TRUE;
  switch (key->kind) {
  case BW_KEY_NUMBER:
    return numbers_equal (p, q, 1);
  case BW_KEY_TEXT:
    return g_str_equal (p, q);
  case BW_KEY_PAIR:
  case BW_KEY_VALUES:
    return bw_key_count (key, a) == bw_key_count (key, b)
           && numbers_equal (p, q, bw_key_count (key, a));
  case BW_KEY_WHOLE:
  case BW_KEY_WORD:
  default:
    return *(const int *)p == *(const int *)q;
  }
}

static gboolean
group_equal (const BwKeyGroup *group, const BwDesign *a, const BwDesign *b)
{
  gboolean given = flag_is_set (a, group->has);

  if (given != flag_is_set (b, group->has))
    return FALSE;
  for (int i = 0; given && i < group->n_keys; i++)
    if (!key_equal (&group->keys[i], a, b))
      return FALSE;
  return TRUE;
}

guint
bw_design_difference (const BwDesign *a, const BwDesign *b)
{
  guint bits = 0;

  for (int s = 0; s < BW_N_GROUPS; s++)
    if (!group_equal (&groups[s], a, b))
      bits |= 1u << s;
  if (!numbers_equal (&a->pitch.mm, &b->pitch.mm, 1)
      || !numbers_equal (&a->pitch.sd_mm, &b->pitch.sd_mm, 1)
      || a->tried.is_told != b->tried.is_told || a->tried.beads_around != b->tried.beads_around
      || !numbers_equal (&a->tried.longer_mm, &b->tried.longer_mm, 1)
      || !numbers_equal (&a->tried.sd_mm, &b->tried.sd_mm, 1))
    bits |= 1u << BW_GROUP_GAUGE;
  if (!numbers_equal (&a->bed.squeeze_sd, &b->bed.squeeze_sd, 1))
    bits |= 1u << BW_GROUP_BED;
  if (!numbers_equal (&a->thread.stretch_sd, &b->thread.stretch_sd, 1))
    bits |= 1u << BW_GROUP_THREAD;
  return bits;
}

static gsize
size_of (const BwKey *key)
{
  switch (key->kind) {
  case BW_KEY_NUMBER:
    return sizeof (double);
  case BW_KEY_TEXT:
    return (gsize)key->hi;
  case BW_KEY_PAIR:
    return 2 * sizeof (double);
  case BW_KEY_VALUES:
    return BW_FACES_MAX * sizeof (double);
  case BW_KEY_WHOLE:
  case BW_KEY_WORD:
  default:
    return sizeof (int);
  }
}

static void
take_flag (BwDesign *to, const BwDesign *from, size_t offset)
{
  if (offset != 0)
    *bw_design_flag (to, offset) = flag_is_set (from, offset);
}

void
bw_design_take_groups (BwDesign *to, const BwDesign *from, guint wanted)
{
  for (int s = 0; s < BW_N_GROUPS; s++) {
    if (!(wanted & 1u << s))
      continue;
    take_flag (to, from, groups[s].has);
    for (int i = 0; i < groups[s].n_keys; i++) {
      const BwKey *key = &groups[s].keys[i];

      take_flag (to, from, key->has);
      memcpy (bw_key_field (key, to), bw_key_value (key, from), size_of (key));
    }
  }
  if (wanted & 1u << BW_GROUP_GAUGE) {
    to->pitch = from->pitch;
    to->tried = from->tried;
  }
  if (wanted & 1u << BW_GROUP_BED)
    to->bed.squeeze_sd = from->bed.squeeze_sd;
  if (wanted & 1u << BW_GROUP_THREAD)
    to->thread.stretch_sd = from->thread.stretch_sd;
}
