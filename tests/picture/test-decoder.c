/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Pictures made to do harm end the decoder at most: each of them ended the program, kept it busy
 * for minutes or took all its memory when it was decoded within. */
#include "picture/apart.h"
#include "costly.h"
#include "png.h"
#include "pretence.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <fcntl.h>
#include <string.h>
#include <sys/stat.h>
#include <glib/gstdio.h>
#include <cmocka.h>

#define LONG 60 /* seconds; nothing here takes them, but a machine may be busy */

#define SVG(inner)                                                                                 \
  "<svg xmlns='http://www.w3.org/2000/svg' width='200' height='200'>" inner "</svg>"
#define FILTERED(filter)                                                                           \
  SVG ("<filter id='f'>" filter "</filter><rect width='200' height='200' filter='url(#f)'/>")

static BwPictureAnswer
answer_within (int seconds, const void *data, gsize length)
{
  g_autoptr (GBytes) file = g_bytes_new (data, length);
  BwPictureAnswer answer;
  g_autoptr (GdkPixbuf) pixbuf = bw_picture_decode_apart (file, seconds, NULL, &answer);
  assert_int_equal (pixbuf != NULL, answer.outcome == BW_PICTURE_DONE);
  return answer;
}

static BwPictureOutcome
outcome_of (const char *text)
{
  return (BwPictureOutcome)answer_within (LONG, text, strlen (text)).outcome;
}

/* What any of these may not be: shown, or taken for something else. */
static void
expect_costly_or_broken (const char *text)
{
  BwPictureOutcome outcome = outcome_of (text);
  if (outcome != BW_PICTURE_COSTLY && outcome != BW_PICTURE_BROKEN)
    fail_msg ("outcome %d of %.80s", outcome, text);
}

/* Some libraries end at it and some draw it; either way it is answered. */
static void
expect_answered (const char *text)
{
  BwPictureOutcome outcome = outcome_of (text);
  assert_int_not_equal (outcome, BW_PICTURE_NONE);
  assert_int_not_equal (outcome, BW_PICTURE_NO_DECODER);
}

static void
expect_still_decodes (void)
{
  g_autoptr (GByteArray) png = png_new (&(PngSpec){ 64, 32, 8, 2, 0, 32 * 193, 0 });
  BwPictureAnswer answer = answer_within (LONG, png->data, png->len);
  assert_int_equal (answer.outcome, BW_PICTURE_DONE);
  assert_int_equal (answer.width, 64);
  assert_int_equal (answer.height, 32);
}

static void
points_come_over_as_they_were_decoded (void **state)
{
  static const char svg[] = SVG ("<rect width='200' height='200' fill='#336699'/>");
  g_autoptr (GBytes) file = g_bytes_new (svg, strlen (svg));
  BwPictureAnswer answer;
  g_autoptr (GdkPixbuf) pixbuf = bw_picture_decode_apart (file, LONG, NULL, &answer);
  assert_non_null (pixbuf);
  assert_int_equal (gdk_pixbuf_get_width (pixbuf), 2000);
  assert_int_equal (gdk_pixbuf_get_height (pixbuf), 2000);
  const guint8 *last = gdk_pixbuf_read_pixels (pixbuf) + 1999 * gdk_pixbuf_get_rowstride (pixbuf)
                       + 1999 * gdk_pixbuf_get_n_channels (pixbuf);
  assert_memory_equal (last, "\x33\x66\x99", 3);
}

static void
a_convolution_too_wide_ends_the_decoder_alone (void **state)
{
  g_autoptr (GString) svg = g_string_new (NULL);
  g_string_append (svg, "<svg xmlns='http://www.w3.org/2000/svg' width='200' height='200'>"
                        "<filter id='f'><feConvolveMatrix order='150' kernelMatrix='");
  for (int i = 0; i < 150 * 150; i++)
    g_string_append (svg, "1 ");
  g_string_append (svg, "'/></filter><rect width='200' height='200' filter='url(#f)'/></svg>");
  expect_answered (svg->str);
  expect_still_decodes ();
}

static void
a_tile_of_no_width_ends_the_decoder_alone (void **state)
{
  expect_answered (FILTERED ("<feFlood x='100%' width='1e-40' height='10'/><feTile/>"));
  expect_still_decodes ();
}

static void
letters_of_enormous_size_are_drawn_apart (void **state)
{
  static const char *const sizes[] = { "100000", "1e9", "1e30" };
  for (gsize i = 0; i < G_N_ELEMENTS (sizes); i++) {
    g_autofree char *svg
        = g_strdup_printf (SVG ("<text y='100' font-size='%s'>Tidewrack</text>"), sizes[i]);
    expect_answered (svg);
  }
  expect_still_decodes ();
}

static void
a_drawing_that_wants_too_much_memory_is_refused (void **state)
{
  g_autofree char *svg = costly_drawing ();
  expect_costly_or_broken (svg);
}

/* Longer than a test may take: without the force these would not end well. */
#define FOR_EVER "#!/bin/sh\nexec sleep 100000\n"

static void
a_decoder_that_takes_too_long_is_ended_by_force (void **state)
{
  Pretence pretence = pretend (FOR_EVER);
  BwPictureAnswer answer = answer_within (1, "<svg/>", 6);
  end_pretence (&pretence);
  assert_int_equal (answer.outcome, BW_PICTURE_COSTLY);
}

/* The same, once somebody listens to the pipe beside it. */
#define BEGUN_FOR_EVER "#!/bin/sh\n: >\"${0%/*}/begun\"\nexec sleep 100000\n"

typedef struct {
  char *pipe;
  GCancellable *cancellable;
} Stop;

/* Opening the pipe waits until the decoder has begun, for only then somebody writes to it. */
static gpointer
stop_when_begun (gpointer data)
{
  Stop *stop = data;
  int pipe = open (stop->pipe, O_RDONLY | O_CLOEXEC);
  g_cancellable_cancel (stop->cancellable);
  g_close (pipe, NULL);
  return NULL;
}

static void
a_stop_ends_the_decoder_at_once (void **state)
{
  g_autoptr (GBytes) file = g_bytes_new_static ("<svg/>", 6);
  g_autoptr (GCancellable) cancellable = g_cancellable_new ();
  BwPictureAnswer answer;
  Pretence pretence = pretend (BEGUN_FOR_EVER);
  g_autofree char *pipe = g_build_filename (pretence.folder, "begun", NULL);
  Stop stop = { pipe, cancellable };
  assert_int_equal (mkfifo (pipe, 0600), 0);
  GThread *thread = g_thread_new ("stop", stop_when_begun, &stop);
  assert_null (bw_picture_decode_apart (file, 100000, cancellable, &answer));
  g_thread_join (thread);
  g_remove (pipe);
  end_pretence (&pretence);
  assert_int_equal (answer.outcome, BW_PICTURE_COSTLY);
}

/* It takes minutes of the processor's time. */
static void
a_drawing_that_takes_too_long_is_ended (void **state)
{
  g_autoptr (GString) filter = g_string_new (NULL);
  for (int i = 0; i < 40; i++)
    g_string_append_printf (filter,
                            "<feTurbulence baseFrequency='0.9' numOctaves='400' "
                            "result='t%d'/><feGaussianBlur stdDeviation='90'/>",
                            i);
  g_autofree char *svg = g_strdup_printf (FILTERED ("%s"), filter->str);
  assert_int_equal (answer_within (1, svg, strlen (svg)).outcome, BW_PICTURE_COSTLY);
  expect_still_decodes ();
}

static void
a_header_of_60000_by_60000_points_is_refused_with_its_size (void **state)
{
  g_autoptr (GByteArray) png = png_new (&(PngSpec){ 60000, 60000, 8, 2, 0, 100, 0 });
  BwPictureAnswer answer = answer_within (LONG, png->data, png->len);
  assert_int_equal (answer.outcome, BW_PICTURE_TOO_LARGE);
  assert_int_equal (answer.width, 60000);
  assert_int_equal (answer.height, 60000);
}

static void
a_png_whose_data_end_early_is_broken (void **state)
{
  g_autoptr (GByteArray) half = png_new (&(PngSpec){ 64, 32, 8, 2, 0, 16 * 193, 0 });
  g_autoptr (GByteArray) cut = png_new (&(PngSpec){ 64, 32, 8, 2, 0, 32 * 193, 6 });
  assert_int_equal (answer_within (LONG, half->data, half->len).outcome, BW_PICTURE_BROKEN);
  assert_int_equal (answer_within (LONG, cut->data, cut->len).outcome, BW_PICTURE_BROKEN);
  for (guint length = 8; length < cut->len; length += 5)
    assert_int_equal (answer_within (LONG, half->data, MIN (length, half->len - 1)).outcome,
                      BW_PICTURE_BROKEN);
}

static void
what_is_no_picture_is_said_to_be_none (void **state)
{
  assert_int_equal (outcome_of ("a,b,c\n1,2,3\n"), BW_PICTURE_NONE);
  assert_int_equal (outcome_of ("GIF89a"), BW_PICTURE_NONE);
  assert_int_equal (outcome_of (""), BW_PICTURE_NONE);
}

static void
a_decoder_that_is_not_there_is_said_to_be_missing (void **state)
{
  g_autofree char *folder = g_strdup (g_getenv ("BANDWRIGHT_LIBEXEC_DIR"));
  g_setenv ("BANDWRIGHT_LIBEXEC_DIR", "/nowhere", TRUE);
  assert_int_equal (outcome_of (SVG ("")), BW_PICTURE_NO_DECODER);
  g_setenv ("BANDWRIGHT_LIBEXEC_DIR", folder, TRUE);
}

/* A decoder that says something else is not believed. */
static void
expect_not_believed (const char *script)
{
  Pretence pretence = pretend (script);
  BwPictureOutcome outcome = outcome_of (SVG (""));
  end_pretence (&pretence);
  assert_int_equal (outcome, BW_PICTURE_COSTLY);
}

static void
an_answer_that_cannot_be_right_is_not_believed (void **state)
{
  expect_not_believed ("#!/bin/sh\n");
  expect_not_believed ("#!/bin/sh\necho gibberish that is long enough to be an answer\n");
  /* Two by two points of three bytes, of which one is missing; then none missing but a failure
   * told; then a size that only multiplied wrongly would fit. */
#define NUMBER(octal) "\\" octal "\\000\\000\\000"
#define BEGINNING                                                                                  \
  "#!/bin/sh\nprintf '"                                                                            \
  "iPwB" NUMBER ("000")
  expect_not_believed (BEGINNING NUMBER ("002") NUMBER ("002") NUMBER ("003") "12345678901'\n");
  expect_not_believed (BEGINNING NUMBER ("002") NUMBER ("002")
                           NUMBER ("003") "123456789012'; exit 1\n");
  expect_not_believed (
      BEGINNING NUMBER ("002") "\\376\\377\\377\\377" NUMBER ("003") "123456789012'\n");
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (points_come_over_as_they_were_decoded),
    cmocka_unit_test (a_convolution_too_wide_ends_the_decoder_alone),
    cmocka_unit_test (a_tile_of_no_width_ends_the_decoder_alone),
    cmocka_unit_test (letters_of_enormous_size_are_drawn_apart),
    cmocka_unit_test (a_drawing_that_wants_too_much_memory_is_refused),
    cmocka_unit_test (a_drawing_that_takes_too_long_is_ended),
    cmocka_unit_test (a_decoder_that_takes_too_long_is_ended_by_force),
    cmocka_unit_test (a_stop_ends_the_decoder_at_once),
    cmocka_unit_test (an_answer_that_cannot_be_right_is_not_believed),
    /* What starts no decoder comes last: the library is still putting away the last one's watch
     * when its end has been told, and a leak check at that very moment would see it. */
    cmocka_unit_test (a_header_of_60000_by_60000_points_is_refused_with_its_size),
    cmocka_unit_test (a_png_whose_data_end_early_is_broken),
    cmocka_unit_test (what_is_no_picture_is_said_to_be_none),
    cmocka_unit_test (a_decoder_that_is_not_there_is_said_to_be_missing),
  };
  return cmocka_run_group_tests_name ("decoder", tests, NULL, NULL);
}
