/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where safety copies lie; shared by what writes them and what finds them. */
#pragma once

/* Owned. It need not exist. */
char *bw_recovery_folder (void);
