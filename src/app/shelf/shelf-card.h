/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A design on the shelf: the piece on its stone, and under it a small label with its name. */
#pragma once

#include "app/shelf/shelf-look.h"
#include <gtk/gtk.h>

#define BW_TYPE_SHELF_CARD (bw_shelf_card_get_type ())
G_DECLARE_FINAL_TYPE (BwShelfCard, bw_shelf_card, BW, SHELF_CARD, GtkFlowBoxChild)

typedef enum {
  BW_CARD_NEW,     /* the empty place: a new stone */
  BW_CARD_DESIGN,  /* one of the maker's own */
  BW_CARD_EXAMPLE, /* one that came with the program */
} BwShelfKind;

/* file: NULL for the empty place. */
GtkWidget *bw_shelf_card_new (BwShelfKind kind, GFile *file);
BwShelfKind bw_shelf_card_get_kind (BwShelfCard *self);
GFile *bw_shelf_card_get_file (BwShelfCard *self); /* borrowed */
BwShelfState bw_shelf_card_get_state (BwShelfCard *self);
const char *bw_shelf_card_get_name (BwShelfCard *self); /* as it is shown; borrowed */
/* What it looks like now. */
void bw_shelf_card_show (BwShelfCard *self, const BwShelfLook *look);
/* Where its piece stands; borrowed. */
GtkWidget *bw_shelf_card_get_stand (BwShelfCard *self);
/* The designs' own menu, as a right click opens it. */
void bw_shelf_card_open_menu (BwShelfCard *self);
