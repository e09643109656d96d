/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "bench.h"

#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>

struct edge {
  avr_cycle_count_t cycle;
  uint64_t levels;
  char kind;
};

static struct edge *edges;
static size_t count;
static size_t room;

void edges_note(char kind, avr_cycle_count_t cycle, uint64_t levels) {
  if (count == room) {
    room = room == 0 ? 4096 : room * 2;
    edges = realloc(edges, room * sizeof *edges);
    if (edges == NULL) {
      die("no memory for edges", "");
    }
  }
  edges[count++] = (struct edge){.cycle = cycle, .levels = levels, .kind = kind};
}

unsigned edges_write(const char *file) {
  FILE *out = fopen(file, "w");
  if (out == NULL) {
    die("cannot write", file);
  }
  for (size_t i = 0; i < count; i++) {
    fprintf(out, "%" PRIu64 " %c %" PRIx64 "\n", edges[i].cycle, edges[i].kind, edges[i].levels);
  }
  if (fclose(out) != 0) {
    die("cannot write", file);
  }
  unsigned written = (unsigned)count;
  count = 0;
  return written;
}
