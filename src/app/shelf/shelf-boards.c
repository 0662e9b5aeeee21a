/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The toolkit's flow box lays out the cards and walks them by keys; only what is behind them is
 * ours. */
#include "config.h"

#include "app/shelf/shelf-boards.h"
#include "app/kit/palette.h"
#include "app/shelf/shelf-stand.h"

#define MOST_IN_A_ROW 12
#define ROUND 8 /* corners of the wall, px */

struct _BwShelfBoards {
  GtkWidget parent_instance;
  GtkFlowBox *box;
};

G_DEFINE_FINAL_TYPE (BwShelfBoards, bw_shelf_boards, GTK_TYPE_WIDGET)

enum { CHOSEN, N_SIGNALS };
static guint signals[N_SIGNALS];

void
bw_shelf_boards_set_name (BwShelfBoards *self, const char *name)
{
  g_return_if_fail (BW_IS_SHELF_BOARDS (self));
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->box), GTK_ACCESSIBLE_PROPERTY_LABEL, name,
                                  -1);
}

void
bw_shelf_boards_add (BwShelfBoards *self, BwShelfCard *card)
{
  g_return_if_fail (BW_IS_SHELF_BOARDS (self) && BW_IS_SHELF_CARD (card));
  gtk_flow_box_append (self->box, GTK_WIDGET (card));
}

BwShelfCard *
bw_shelf_boards_get (BwShelfBoards *self, int index)
{
  g_return_val_if_fail (BW_IS_SHELF_BOARDS (self), NULL);
  GtkFlowBoxChild *child = gtk_flow_box_get_child_at_index (self->box, index);
  return child ? BW_SHELF_CARD (child) : NULL;
}

void
bw_shelf_boards_clear (BwShelfBoards *self)
{
  g_return_if_fail (BW_IS_SHELF_BOARDS (self));
  GtkWidget *child;
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self->box))))
    gtk_flow_box_remove (self->box, child);
}

/* --- Wall and board ----------------------------------------------------------------------------
 */

typedef struct {
  GdkRGBA high, low;  /* the wall, above and below */
  GdkRGBA side, edge; /* of the board: its upper side and its front */
  gboolean plain;     /* a theme of its own colours: lines alone */
  GdkRGBA ink;
} Ground;

static GdkRGBA
mixed (GdkRGBA a, GdkRGBA b, float share)
{
  return (GdkRGBA){ a.red + (b.red - a.red) * share, a.green + (b.green - a.green) * share,
                    a.blue + (b.blue - a.blue) * share, 1 };
}

static Ground
ground_of (GtkWidget *widget)
{
  GtkStyleContext *style = gtk_widget_get_style_context (widget);
  Ground ground = { .plain = TRUE };
  GdkRGBA card;
  gtk_style_context_get_color (style, &ground.ink);
  if (!gtk_style_context_lookup_color (style, "bw_stage_high", &ground.high)
      || !gtk_style_context_lookup_color (style, "bw_stage_low", &ground.low)
      || !gtk_style_context_lookup_color (style, "bw_card", &card))
    return ground;
  ground.plain = FALSE;
  ground.side = mixed (ground.low, card, 0.55f);
  ground.edge = mixed (ground.low, ground.ink, 0.30f);
  return ground;
}

static void
append_wall (GtkSnapshot *snapshot, const Ground *ground, float top, float width, float height)
{
  GskColorStop stops[] = { { 0, ground->high }, { 1, ground->low } };
  graphene_rect_t bounds = GRAPHENE_RECT_INIT (0, top, width, height);
  GskRoundedRect rounded;
  gsk_rounded_rect_init (&rounded, &bounds, &GRAPHENE_SIZE_INIT (ROUND, ROUND),
                         &GRAPHENE_SIZE_INIT (ROUND, ROUND), &GRAPHENE_SIZE_INIT (0, 0),
                         &GRAPHENE_SIZE_INIT (0, 0));
  gtk_snapshot_push_rounded_clip (snapshot, &rounded);
  gtk_snapshot_append_linear_gradient (snapshot, &bounds, &GRAPHENE_POINT_INIT (0, top),
                                       &GRAPHENE_POINT_INIT (0, top + height), stops, 2);
  gtk_snapshot_pop (snapshot);
}

static void
append_board (GtkSnapshot *snapshot, const Ground *ground, float top, float width, float thick)
{
  float side = thick * 0.55f;
  GskColorStop fall[] = { { 0, { 0, 0, 0, 0.16f } }, { 1, { 0, 0, 0, 0 } } };
  graphene_rect_t below = GRAPHENE_RECT_INIT (0, top + thick, width, thick);
  gtk_snapshot_append_color (snapshot, &ground->side, &GRAPHENE_RECT_INIT (0, top, width, side));
  gtk_snapshot_append_color (snapshot, &ground->edge,
                             &GRAPHENE_RECT_INIT (0, top + side, width, thick - side));
  gtk_snapshot_append_linear_gradient (snapshot, &below, &below.origin,
                                       &GRAPHENE_POINT_INIT (0, top + 2 * thick), fall, 2);
}

static void
append_row (GtkWidget *widget, GtkSnapshot *snapshot, const graphene_rect_t *stand)
{
  Ground ground = ground_of (widget);
  float width = (float)gtk_widget_get_width (widget);
  float thick = (float)bw_shelf_stand_board (widget);
  float board = stand->origin.y + stand->size.height - thick;
  if (ground.plain) {
    gtk_snapshot_append_color (snapshot, &ground.ink,
                               &GRAPHENE_RECT_INIT (0, board + thick - 2, width, 2));
    return;
  }
  append_wall (snapshot, &ground, stand->origin.y - 8, width, board - stand->origin.y + 8);
  append_board (snapshot, &ground, board, width, thick);
}

static void
bw_shelf_boards_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  BwShelfBoards *self = BW_SHELF_BOARDS (widget);
  float last = -1e6f;
  for (int i = 0; bw_shelf_boards_get (self, i); i++) {
    graphene_rect_t stand;
    if (!gtk_widget_compute_bounds (bw_shelf_card_get_stand (bw_shelf_boards_get (self, i)), widget,
                                    &stand)
        || stand.origin.y < last + 4)
      continue;
    append_row (widget, snapshot, &stand);
    last = stand.origin.y;
  }
  gtk_widget_snapshot_child (widget, GTK_WIDGET (self->box), snapshot);
}

static void
activated (BwShelfBoards *self, GtkFlowBoxChild *child)
{
  g_signal_emit (self, signals[CHOSEN], 0, child);
}

static GtkSizeRequestMode
bw_shelf_boards_get_request_mode (GtkWidget *widget)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

static void
bw_shelf_boards_dispose (GObject *object)
{
  BwShelfBoards *self = BW_SHELF_BOARDS (object);
  GtkWidget *box = GTK_WIDGET (self->box);
  self->box = NULL;
  g_clear_pointer (&box, gtk_widget_unparent);
  G_OBJECT_CLASS (bw_shelf_boards_parent_class)->dispose (object);
}

static void
bw_shelf_boards_class_init (BwShelfBoardsClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = bw_shelf_boards_dispose;
  widget_class->snapshot = bw_shelf_boards_snapshot;
  widget_class->get_request_mode = bw_shelf_boards_get_request_mode;
  signals[CHOSEN] = g_signal_new ("chosen", BW_TYPE_SHELF_BOARDS, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                  NULL, G_TYPE_NONE, 1, BW_TYPE_SHELF_CARD);
  gtk_widget_class_set_css_name (widget_class, "shelfboards");
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
}

static void
bw_shelf_boards_init (BwShelfBoards *self)
{
  self->box = GTK_FLOW_BOX (gtk_flow_box_new ());
  g_object_set (self->box, "homogeneous", TRUE, "selection-mode", GTK_SELECTION_NONE,
                "max-children-per-line", MOST_IN_A_ROW, "row-spacing", 18, "halign",
                GTK_ALIGN_START, "valign", GTK_ALIGN_START, NULL);
  gtk_widget_set_parent (GTK_WIDGET (self->box), GTK_WIDGET (self));
  g_signal_connect_swapped (self->box, "child-activated", G_CALLBACK (activated), self);
  bw_palette_follow (GTK_WIDGET (self));
}
