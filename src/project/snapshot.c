/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "project/snapshot.h"
#include "project/file/reader.h"
#include "project/json/json.h"
#include "project/project-private.h"

struct _BwSnapshot {
  BwDocument *document;
};

BwSnapshot *
bw_snapshot_new (BwProject *project)
{
  BwSnapshot *snapshot = g_new0 (BwSnapshot, 1);

  snapshot->document = bw_document_copy (project->document);
  return snapshot;
}

void
bw_snapshot_free (BwSnapshot *snapshot)
{
  bw_document_free (snapshot->document);
  g_free (snapshot);
}

char *
bw_snapshot_to_data (const BwSnapshot *snapshot, gsize *length)
{
  g_autoptr (JsonNode) root = bw_document_to_json (snapshot->document);

  return bw_json_print (root, length);
}
