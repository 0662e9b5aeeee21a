/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The model as a program we did not write reads it: the Open Asset Import Library, which loads the
 * file, checks its structure and gives back meshes and nodes. */
#include "core/pattern/colour.h"
#include "preview/picture/model.h"
#include "preview/scene/scene.h"
#include "preview/scene/scene-bead.h"

#include <assimp/cimport.h>
#include <assimp/scene.h>
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <string.h>
#include <cmocka.h>

#include "../preview/pieces.h"

#define assert_near(a, b, tolerance) assert_true (fabs ((double)(a) - (double)(b)) <= (tolerance))

typedef struct {
  BwProject *project;
  BwScene *scene;
  const struct aiScene *model;
} Piece;

static Piece
piece_read (int which)
{
  Piece piece = { .project = piece_new (which) };
  g_autoptr (GBytes) bytes = bw_model_new (piece.project);
  gsize size;
  const char *data = g_bytes_get_data (bytes, &size);
  piece.scene = bw_scene_new (piece.project, FALSE);
  piece.model = aiImportFileFromMemory (data, (unsigned)size, 0, "glb");
  if (!piece.model)
    fail_msg ("piece %d: %s", which, aiGetErrorString ());
  return piece;
}

static void
piece_clear (Piece *piece)
{
  aiReleaseImport (piece->model);
  bw_scene_free (piece->scene);
  g_object_unref (piece->project);
}

static const struct aiNode *
group (const Piece *piece, const char *name)
{
  const struct aiNode *root = piece->model->mRootNode;
  for (unsigned i = 0; i < root->mNumChildren; i++)
    if (strcmp (root->mChildren[i]->mName.data, name) == 0)
      return root->mChildren[i];
  return NULL;
}

static struct aiVector3D
moved (const struct aiMatrix4x4 *by, struct aiVector3D at)
{
  aiTransformVecByMatrix4 (&at, by);
  return at;
}

static void
assert_at (struct aiVector3D found, const float at[3], double tolerance)
{
  assert_near (found.x, at[0], tolerance);
  assert_near (found.y, at[1], tolerance);
  assert_near (found.z, at[2], tolerance);
}

static void
assert_placed (const Piece *piece, const struct aiNode *node, const BwSceneBead *bead)
{
  struct aiVector3D middle = moved (&node->mTransformation, (struct aiVector3D){ 0, 0, 0 });
  struct aiVector3D up = moved (&node->mTransformation, (struct aiVector3D){ 0, 0, 1 });
  struct aiVector3D out = moved (&node->mTransformation, (struct aiVector3D){ 1, 0, 0 });
  float axis_end[3], out_end[3];
  bw_bead_axis (bead, axis_end);
  bw_bead_out (bead, out_end);
  for (int i = 0; i < 3; i++) {
    axis_end[i] += bead->at[i];
    out_end[i] += bead->at[i];
  }
  assert_at (middle, bead->at, 2e-4);
  assert_at (up, axis_end, 2e-4);
  assert_at (out, out_end, 2e-4);
}

static void
assert_coloured (const Piece *piece, const struct aiNode *node, const BwSceneBead *bead)
{
  assert_int_equal (node->mNumMeshes, 1);
  const struct aiMesh *mesh = piece->model->mMeshes[node->mMeshes[0]];
  struct aiColor4D colour;
  assert_int_equal (aiGetMaterialColor (piece->model->mMaterials[mesh->mMaterialIndex], "$clr.base",
                                        0, 0, &colour),
                    aiReturn_SUCCESS);
  float light[3];
  bw_bead_light (bead, light);
  assert_near (colour.r, light[0], 1e-5);
  assert_near (colour.g, light[1], 1e-5);
  assert_near (colour.b, light[2], 1e-5);
}

static void
every_bead_is_in_its_place_in_its_colour (void **state)
{
  for (int which = 0; which < N_PIECES; which++) {
    Piece piece = piece_read (which);
    const struct aiNode *band = group (&piece, "Band"), *bail = group (&piece, "Bail");
    assert_non_null (band);
    assert_int_equal (band->mNumChildren, piece.scene->n_band);
    assert_int_equal (bail ? bail->mNumChildren : 0,
                      piece.scene->beads->len - (guint)piece.scene->n_band);
    for (guint i = 0; i < piece.scene->beads->len; i++) {
      const BwSceneBead *bead = &g_array_index (piece.scene->beads, BwSceneBead, i);
      const struct aiNode *node = bw_scene_bead_of (piece.scene, (int)i).in_bail
                                      ? bail->mChildren[i - (guint)piece.scene->n_band]
                                      : band->mChildren[i];
      assert_placed (&piece, node, bead);
      assert_coloured (&piece, node, bead);
    }
    piece_clear (&piece);
  }
}

/* --- Solids ------------------------------------------------------------------------------------
 */

static double
volume_of (const struct aiMesh *mesh)
{
  double sum = 0;
  for (unsigned f = 0; f < mesh->mNumFaces; f++) {
    const unsigned *index = mesh->mFaces[f].mIndices;
    struct aiVector3D a = mesh->mVertices[index[0]], b = mesh->mVertices[index[1]],
                      c = mesh->mVertices[index[2]];
    sum += (double)a.x * ((double)b.y * (double)c.z - (double)b.z * (double)c.y)
           + (double)a.y * ((double)b.z * (double)c.x - (double)b.x * (double)c.z)
           + (double)a.z * ((double)b.x * (double)c.y - (double)b.y * (double)c.x);
  }
  return sum / 6;
}

static char *
edge_key (struct aiVector3D a, struct aiVector3D b)
{
  return g_strdup_printf ("%.4f %.4f %.4f > %.4f %.4f %.4f", (double)a.x + 0.0, (double)a.y + 0.0,
                          (double)a.z + 0.0, (double)b.x + 0.0, (double)b.y + 0.0,
                          (double)b.z + 0.0);
}

/* On a closed surface each edge is walked once in each direction. */
static void
assert_closed (const struct aiMesh *mesh)
{
  g_autoptr (GHashTable) open = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  for (unsigned f = 0; f < mesh->mNumFaces; f++)
    for (int i = 0; i < 3; i++) {
      const unsigned *index = mesh->mFaces[f].mIndices;
      struct aiVector3D a = mesh->mVertices[index[i]], b = mesh->mVertices[index[(i + 1) % 3]];
      g_autofree char *back = edge_key (b, a);
      if (!g_hash_table_remove (open, back))
        assert_true (g_hash_table_add (open, edge_key (a, b)));
    }
  assert_int_equal (g_hash_table_size (open), 0);
}

static const struct aiMesh *
mesh_of (const Piece *piece, const struct aiNode *node)
{
  return piece->model->mMeshes[node->mChildren[0]->mMeshes[0]];
}

static void
a_bead_is_a_holed_solid_of_its_size (void **state)
{
  for (int which = 0; which < N_PIECES; which++) {
    Piece piece = piece_read (which);
    const BwScene *scene = piece.scene;
    const struct aiMesh *bead = mesh_of (&piece, group (&piece, "Band"));
    double radius = (double)scene->bead_radius, hole = (double)scene->hole_radius;
    double full = G_PI * (radius * radius - hole * hole) * 2 * (double)scene->bead_half_length;
    assert_closed (bead);
    /* The rims are rounded off and the circle has corners: a little less than a plain tube. */
    assert_true (volume_of (bead) < full);
    assert_true (volume_of (bead) > 0.93 * full);
    piece_clear (&piece);
  }
}

static void
the_stone_has_its_volume_and_every_normal_looks_outward (void **state)
{
  for (int which = 0; which < N_PIECES; which++) {
    Piece piece = piece_read (which);
    const struct aiMesh *stone = mesh_of (&piece, group (&piece, "Stone"));
    double volume = bw_project_stone (piece.project)->volume_mm3;
    assert_near (volume_of (stone), volume, 1e-5 * volume);
    for (unsigned f = 0; f < stone->mNumFaces; f++) {
      const unsigned *index = stone->mFaces[f].mIndices;
      struct aiVector3D at = stone->mVertices[index[0]], normal = stone->mNormals[index[0]];
      double height = (double)at.z - (double)piece.scene->centre[2];
      /* The middle of the axis lies inside. */
      assert_true ((double)at.x * (double)normal.x + (double)at.y * (double)normal.y
                       + height * (double)normal.z
                   > 0);
    }
    piece_clear (&piece);
  }
}

/* Pappus: a ring's volume is its section times the way of the section's middle. */
static void
a_metal_ring_is_a_solid_of_its_wire (void **state)
{
  int rings = 0;
  for (int which = 0; which < N_PIECES; which++) {
    Piece piece = piece_read (which);
    const struct aiNode *ring = group (&piece, "Ring");
    const GArray *stations = piece.scene->ring.stations;
    assert_int_equal (ring != NULL, stations->len > 1);
    if (ring) {
      double wire = (double)piece.scene->ring.radius;
      double way = (double)g_array_index (stations, BwSceneStation, stations->len - 1).along;
      double volume = volume_of (mesh_of (&piece, ring));
      assert_closed (mesh_of (&piece, ring));
      assert_near (volume / (G_PI * wire * wire * way), 1, 0.03);
      rings++;
    }
    piece_clear (&piece);
  }
  assert_true (rings > 0);
}

static void
the_model_is_in_metres_and_stands_up (void **state)
{
  for (int which = 0; which < N_PIECES; which++) {
    Piece piece = piece_read (which);
    const struct aiMatrix4x4 *whole = &piece.model->mRootNode->mTransformation;
    float length = (float)bw_project_get_design (piece.project)->stone.length_mm;
    struct aiVector3D tip = moved (whole, (struct aiVector3D){ 0, 0, length });
    assert_near (tip.x, 0, 1e-6);
    assert_near (tip.y, (double)length / 1000, 1e-6);
    assert_near (tip.z, 0, 1e-6);
    piece_clear (&piece);
  }
}

static void
a_title_with_marks_and_other_scripts_comes_through (void **state)
{
  const char *title = "“Lamp” \"7\\\" \n حجر";
  g_autoptr (BwProject) project = bw_project_new ();
  bw_project_set_title (project, "Title", title);
  g_autoptr (GBytes) bytes = bw_model_new (project);
  gsize size;
  const char *data = g_bytes_get_data (bytes, &size);
  const struct aiScene *model = aiImportFileFromMemory (data, (unsigned)size, 0, "glb");
  assert_non_null (model);
  assert_string_equal (model->mRootNode->mName.data, bw_project_get_title (project));
  aiReleaseImport (model);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (every_bead_is_in_its_place_in_its_colour),
    cmocka_unit_test (a_bead_is_a_holed_solid_of_its_size),
    cmocka_unit_test (the_stone_has_its_volume_and_every_normal_looks_outward),
    cmocka_unit_test (a_metal_ring_is_a_solid_of_its_wire),
    cmocka_unit_test (the_model_is_in_metres_and_stands_up),
    cmocka_unit_test (a_title_with_marks_and_other_scripts_comes_through),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
