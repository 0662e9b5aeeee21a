/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One number of the design as a field of a form: where it lies, what it is called, how it is read
 * and written. A field is found by the JSON Pointer that a fault names, so that the place at fault
 * and the entry on screen are the same thing. */
#pragma once

#include "core/design/design.h"
#include "project/document/length.h"

typedef enum {
  BW_QUANTITY_LENGTH,  /* mm inside, mm or inch outside */
  BW_QUANTITY_ANGLE,   /* degrees */
  BW_QUANTITY_COUNT,   /* a whole number */
  BW_QUANTITY_NUMBER,  /* a plain number */
  BW_QUANTITY_SHARE,   /* 0..1 inside, per cent outside */
  BW_QUANTITY_DENSITY, /* g/cm³ */
  BW_QUANTITY_GRAMS,
} BwQuantity;

#define BW_POINTER_BYTES 40

/* Copied by assignment. */
typedef struct {
  char pointer[BW_POINTER_BYTES];
  const char *label; /* untranslated */
  const char *tip;   /* untranslated; NULL = none */
  BwQuantity quantity;
  gsize offset; /* of the double (int for a count) in BwDesign */
  gsize flag;   /* of the gboolean that says it is there; 0 = always there */
  double step;  /* what one press of Up adds; its unit is the inside one */
} BwField;

/* Finds the field of a pointer ("/stone/length_mm", "/stone/values_mm/2"). FALSE for no field. */
gboolean bw_field_find (BwField *field, const char *pointer);

double bw_field_get (const BwField *field, const BwDesign *design);
/* FALSE when an optional value is absent. */
gboolean bw_field_is_there (const BwField *field, const BwDesign *design);
/* Sets the value, makes it be there, and what it makes void is dropped: a hand-typed gauge drops
 * the swatch, a bead's new dimension its name from the table, another count or thickness of layers
 * the girth measured over the bed, another number of faces the single measures (a regular section
 * of the same girth takes their place), a shoulder the natural angle and the other way round. */
void bw_field_set (const BwField *field, BwDesign *design, double value);
/* Makes an optional value absent. */
void bw_field_clear (const BwField *field, BwDesign *design);

/* Reads what was typed; a BW_FAULT_RANGE at the field's pointer when it is no such quantity. */
gboolean bw_field_parse (const BwField *field, const char *text, BwUnit unit, double *value,
                         GError **error);
/* As shown in an entry, with its unit. Owned. */
char *bw_field_format (const BwField *field, double value, BwUnit unit);
/* The step for a unit: in inches a round number of thousandths. */
double bw_field_step (const BwField *field, BwUnit unit);
