/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Answers of the tool written into project files, as another program would. */
#pragma once

#include "project/project.h"
#include <json-glib/json-glib.h>

/* Sets what a pointer names in a file; null takes it out. */
void write_at (JsonObject *file, const char *pointer, JsonNode *value);
/* Writes a list of {key, value} in its order. */
void write_all (JsonObject *file, JsonArray *changes);

/* The object of a text, and its text; both owned. The test fails where there is none. */
JsonObject *parse (const char *text);
char *print (JsonObject *object);

/* The project of a text. */
BwProject *load (const char *data);
