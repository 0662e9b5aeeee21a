/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Light or dark: the preference, or what the system asks for. */
#pragma once

/* Follows the "appearance" setting from now on; once, after GTK has started. */
void bw_appearance_follow (void);
