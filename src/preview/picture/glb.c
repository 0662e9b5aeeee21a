/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The JSON is written by hand because it is flat, and because its thousands of nodes need neither a
 * tree in memory nor seventeen digits. */
#include "config.h"

#include "preview/picture/glb.h"

#include "project/json/json-write.h"

#include <string.h>

/* Codes of the format. */
#define FLOATS 5126
#define SHORTS 5123
#define VERTICES 34962
#define CORNERS 34963

/* Significant digits: nine bring a float back exactly; the rest is as near as an eye can tell. */
#define EXACT 9
#define NEAR 6
#define COARSE 4

void
bw_glb_init (BwGlb *glb)
{
  *glb = (BwGlb){
    .bytes = g_byte_array_new (),
    .views = g_string_new (NULL),
    .accessors = g_string_new (NULL),
    .materials = g_string_new (NULL),
    .meshes = g_string_new (NULL),
    .nodes = g_string_new (NULL),
  };
}

void
bw_glb_clear (BwGlb *glb)
{
  GString *parts[] = { glb->views, glb->accessors, glb->materials, glb->meshes, glb->nodes };
  for (gsize i = 0; i < G_N_ELEMENTS (parts); i++)
    g_string_free (parts[i], TRUE);
  g_byte_array_unref (glb->bytes);
  *glb = (BwGlb){ 0 };
}

/* --- JSON --------------------------------------------------------------------------------------
 */

/* Begins the next member of an array; gives its index. */
static int
next (GString *array, int *n)
{
  if (*n > 0)
    g_string_append_c (array, ',');
  return (*n)++;
}

static void
put_numbers (GString *json, const float *number, int n, int digits)
{
  g_string_append_c (json, '[');
  for (int i = 0; i < n; i++) {
    if (i > 0)
      g_string_append_c (json, ',');
    bw_json_append_rounded (json, (double)number[i], digits);
  }
  g_string_append_c (json, ']');
}

/* --- The buffer --------------------------------------------------------------------------------
 */

/* The format is little-endian. */
static void
put_words (GByteArray *bytes, gconstpointer data, gsize size)
{
  guint at = bytes->len;
  g_byte_array_append (bytes, data, (guint)size);
  for (gsize i = 0; G_BYTE_ORDER == G_BIG_ENDIAN && i < size / 4; i++)
    ((guint32 *)(gpointer)(bytes->data + at))[i]
        = GUINT32_SWAP_LE_BE (((guint32 *)(gpointer)(bytes->data + at))[i]);
}

static void
put_halves (GByteArray *bytes, const guint16 *half, int n)
{
  static const guint8 zeros[2] = { 0 };
  for (int i = 0; i < n; i++) {
    guint16 word = GUINT16_TO_LE (half[i]);
    g_byte_array_append (bytes, (const guint8 *)&word, 2);
  }
  g_byte_array_append (bytes, zeros, n % 2 ? 2 : 0);
}

/* Tells of what was put since `at`; every view begins at a whole word. */
static int
add_view (BwGlb *glb, guint at, gsize size, int target)
{
  int index = next (glb->views, &glb->n_views);
  g_string_append_printf (glb->views,
                          "{\"buffer\":0,\"byteOffset\":%u,\"byteLength\":%" G_GSIZE_FORMAT
                          ",\"target\":%d}",
                          at, size, target);
  return index;
}

static int
add_accessor (BwGlb *glb, int view, int component, int n, const char *type)
{
  int index = next (glb->accessors, &glb->n_accessors);
  g_string_append_printf (glb->accessors,
                          "{\"bufferView\":%d,\"componentType\":%d,\"count\":%d,\"type\":\"%s\"",
                          view, component, n, type);
  return index;
}

int
bw_glb_add_points (BwGlb *glb, const float (*xyz)[3], int n)
{
  guint at = glb->bytes->len;
  float least[3], most[3];
  memcpy (least, xyz[0], sizeof least);
  memcpy (most, xyz[0], sizeof most);
  for (int i = 1; i < n; i++)
    for (int k = 0; k < 3; k++) {
      least[k] = MIN (least[k], xyz[i][k]);
      most[k] = MAX (most[k], xyz[i][k]);
    }
  put_words (glb->bytes, xyz, sizeof *xyz * (gsize)n);
  int view = add_view (glb, at, sizeof *xyz * (gsize)n, VERTICES);
  int index = add_accessor (glb, view, FLOATS, n, "VEC3");
  g_string_append (glb->accessors, ",\"min\":");
  put_numbers (glb->accessors, least, 3, EXACT);
  g_string_append (glb->accessors, ",\"max\":");
  put_numbers (glb->accessors, most, 3, EXACT);
  g_string_append_c (glb->accessors, '}');
  return index;
}

int
bw_glb_add_directions (BwGlb *glb, const float (*xyz)[3], int n)
{
  guint at = glb->bytes->len;
  put_words (glb->bytes, xyz, sizeof *xyz * (gsize)n);
  int view = add_view (glb, at, sizeof *xyz * (gsize)n, VERTICES);
  int index = add_accessor (glb, view, FLOATS, n, "VEC3");
  g_string_append_c (glb->accessors, '}');
  return index;
}

int
bw_glb_add_corners (BwGlb *glb, const guint16 *corner, int n)
{
  guint at = glb->bytes->len;
  put_halves (glb->bytes, corner, n);
  int view = add_view (glb, at, sizeof *corner * (gsize)n, CORNERS);
  int index = add_accessor (glb, view, SHORTS, n, "SCALAR");
  g_string_append_c (glb->accessors, '}');
  return index;
}

/* --- What the triangles are --------------------------------------------------------------------
 */

int
bw_glb_add_material (BwGlb *glb, const BwGlbMaterial *material)
{
  int index = next (glb->materials, &glb->n_materials);
  g_string_append (glb->materials, "{\"name\":");
  bw_json_append_text (glb->materials, material->name);
  g_string_append (glb->materials, ",\"pbrMetallicRoughness\":{\"baseColorFactor\":");
  put_numbers (glb->materials, material->colour, 4, NEAR);
  g_string_append (glb->materials, ",\"metallicFactor\":");
  bw_json_append_rounded (glb->materials, (double)material->metallic, COARSE);
  g_string_append (glb->materials, ",\"roughnessFactor\":");
  bw_json_append_rounded (glb->materials, (double)material->roughness, COARSE);
  g_string_append (glb->materials, material->colour[3] < 1 ? "},\"alphaMode\":\"BLEND\"}" : "}}");
  return index;
}

int
bw_glb_add_mesh (BwGlb *glb, const char *name, int points, int directions, int corners,
                 int material)
{
  int index = next (glb->meshes, &glb->n_meshes);
  g_string_append (glb->meshes, "{\"name\":");
  bw_json_append_text (glb->meshes, name);
  g_string_append_printf (glb->meshes,
                          ",\"primitives\":[{\"attributes\":{\"POSITION\":%d,\"NORMAL\":%d}",
                          points, directions);
  if (corners >= 0)
    g_string_append_printf (glb->meshes, ",\"indices\":%d", corners);
  g_string_append_printf (glb->meshes, ",\"material\":%d}]}", material);
  return index;
}

int
bw_glb_add_node (BwGlb *glb, int mesh)
{
  int index = next (glb->nodes, &glb->n_nodes);
  g_string_append_printf (glb->nodes, "{\"mesh\":%d}", mesh);
  return index;
}

int
bw_glb_add_moved (BwGlb *glb, int mesh, const float turn[4], const float at[3])
{
  int index = next (glb->nodes, &glb->n_nodes);
  g_string_append_printf (glb->nodes, "{\"mesh\":%d,\"rotation\":", mesh);
  put_numbers (glb->nodes, turn, 4, NEAR);
  g_string_append (glb->nodes, ",\"translation\":");
  put_numbers (glb->nodes, at, 3, NEAR);
  g_string_append_c (glb->nodes, '}');
  return index;
}

int
bw_glb_add_group (BwGlb *glb, const char *name, int first, int last)
{
  int index = next (glb->nodes, &glb->n_nodes);
  g_string_append (glb->nodes, "{\"name\":");
  bw_json_append_text (glb->nodes, name);
  for (int i = first; i <= last; i++)
    g_string_append_printf (glb->nodes, "%s%d", i == first ? ",\"children\":[" : ",", i);
  g_string_append (glb->nodes, first <= last ? "]}" : "}");
  return index;
}

/* --- The file ----------------------------------------------------------------------------------
 */

/* Turned a quarter about x, so that z up becomes y up. */
static int
add_root (BwGlb *glb, const char *name, const int *groups, int n_groups)
{
  int index = next (glb->nodes, &glb->n_nodes);
  g_string_append (glb->nodes, "{\"name\":");
  bw_json_append_text (glb->nodes, name);
  g_string_append (glb->nodes, ",\"rotation\":[-0.707106781,0,0,0.707106781],"
                               "\"scale\":[0.001,0.001,0.001],\"children\":[");
  for (int i = 0; i < n_groups; i++)
    g_string_append_printf (glb->nodes, i ? ",%d" : "%d", groups[i]);
  g_string_append (glb->nodes, "]}");
  return index;
}

static GString *
whole_json (BwGlb *glb, int root)
{
  GString *json = g_string_new (
      "{\"asset\":{\"version\":\"2.0\",\"generator\":\"Bandwright " BW_VERSION "\"},\"scene\":0");
  g_string_append_printf (json, ",\"scenes\":[{\"nodes\":[%d]}]", root);
  g_string_append_printf (json, ",\"nodes\":[%s]", glb->nodes->str);
  g_string_append_printf (json, ",\"meshes\":[%s]", glb->meshes->str);
  g_string_append_printf (json, ",\"materials\":[%s]", glb->materials->str);
  g_string_append_printf (json, ",\"accessors\":[%s]", glb->accessors->str);
  g_string_append_printf (json, ",\"bufferViews\":[%s]", glb->views->str);
  g_string_append_printf (json, ",\"buffers\":[{\"byteLength\":%u}]}", glb->bytes->len);
  while (json->len % 4 != 0)
    g_string_append_c (json, ' ');
  return json;
}

static void
put_word (GByteArray *file, guint32 word)
{
  word = GUINT32_TO_LE (word);
  g_byte_array_append (file, (const guint8 *)&word, 4);
}

static void
put_chunk (GByteArray *file, const char type[4], gconstpointer data, gsize size)
{
  put_word (file, (guint32)size);
  g_byte_array_append (file, (const guint8 *)type, 4);
  g_byte_array_append (file, data, (guint)size);
}

GBytes *
bw_glb_finish (BwGlb *glb, const char *name, const int *groups, int n_groups)
{
  GString *json = whole_json (glb, add_root (glb, name, groups, n_groups));
  GByteArray *file = g_byte_array_new ();
  g_byte_array_append (file, (const guint8 *)"glTF", 4);
  put_word (file, 2);
  put_word (file, (guint32)(12 + 8 + json->len + 8 + glb->bytes->len));
  put_chunk (file, "JSON", json->str, json->len);
  put_chunk (file, "BIN\0", glb->bytes->data, glb->bytes->len);
  g_string_free (json, TRUE);
  bw_glb_clear (glb);
  return g_byte_array_free_to_bytes (file);
}
