/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Over a number or a list that lies on a page, the wheel scrolls the page. */
#pragma once

/* For every widget that the program shows from now on. Once, when the program starts. */
void bw_wheel_scrolls_pages (void);
