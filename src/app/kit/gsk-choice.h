/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which of GTK's renderers suits this machine. */
#pragma once

/* On a software OpenGL driver GTK's own drawing is two to three times faster with cairo: sets
 * GSK_RENDERER so, before GTK starts, unless the user has set it. */
void bw_gsk_choose (void);
