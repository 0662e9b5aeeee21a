/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A list of the book whose elements have a name, most often one that none but they have. Elements
 * stay JSON and are read when they are wanted: ten thousand of them are not all looked at together.
 * Private to this room. */
#pragma once

#include "project/book/book.h"
#include <json-glib/json-glib.h>

typedef struct {
  const char *key; /* of the book */
  guint most;
  /* Whether an element is sound beyond its name. */
  gboolean (*check) (JsonObject *element, const char *pointer, GError **error);
  gboolean names_repeat; /* several may have one name; what tells them apart is the list's own */
  /* Whether two sound elements are one thing, whatever they are called and however their numbers
   * are written; NULL where another book's are not told by it. */
  gboolean (*is_same) (JsonObject *a, JsonObject *b);
  /* What the one at `at` learns from another book's that is the same thing; NULL: nothing. */
  void (*learn) (BwBook *book, guint at, JsonObject *theirs);
} BwBookList;

/* Every element, and that no name stands twice; a list that is not there is empty. */
gboolean bw_book_list_check (const BwBook *book, const BwBookList *list, GError **error);

guint bw_book_list_length (const BwBook *book, const BwBookList *list);
JsonObject *bw_book_list_at (const BwBook *book, const BwBookList *list, guint i);   /* borrowed */
const char *bw_book_list_name (const BwBook *book, const BwBookList *list, guint i); /* borrowed */
/* −1: none of this name. */
int bw_book_list_find (const BwBook *book, const BwBookList *list, const char *name);
/* The place of the one that is the same thing as a sound element under its name, or under that name
 * with a number; −1: there is none. */
int bw_book_list_find_same (const BwBook *book, const BwBookList *list, JsonObject *element);

/* An element for this name: a copy of the one at `at`, or a new one when at is −1. Owned. */
JsonObject *bw_book_list_draft (const BwBook *book, const BwBookList *list, int at,
                                const char *name);
/* Puts an element, which is taken in either case, in the place `at`, or at the end when at is −1.
 * FALSE with a fault when it is not sound, its name is another's, or the list is full. */
gboolean bw_book_list_put (BwBook *book, const BwBookList *list, int at, JsonObject *element,
                           GError **error);
void bw_book_list_remove (BwBook *book, const BwBookList *list, guint at);

/* Puts the other book's elements in, but those that are there already, under their name or under
 * one that was numbered, which learn at most; one whose name is another's gets a number. */
gboolean bw_book_list_take_in (BwBook *book, const BwBookList *list, const BwBook *other,
                               GError **error);
