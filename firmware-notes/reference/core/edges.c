#include "edges.h"

#if BOARD_EDGES > 0

#include "frame_out.h"
#include "port.h"

#define EDGE_BYTES 5u
#define HEAD_BYTES 11u
#define LEVEL_BIT 0x80u

struct edge {
  uint32_t at_us;
  uint8_t watch; /* its new level in bit 7 */
};

static struct {
  bool held;
  uint32_t number;
  uint16_t kept;
  uint16_t lost; /* stops at 65535 */
  struct edge edge[BOARD_EDGES];
} edges;

void edges_clear(void) {
  edges.held = false;
}

void edges_start(uint32_t number) {
  edges.held = true;
  edges.number = number;
  edges.kept = 0;
  edges.lost = 0;
}

void edges_keep(uint32_t at_us, uint8_t watch, bool level) {
  if (edges.kept < BOARD_EDGES) {
    struct edge *edge = &edges.edge[edges.kept++];
    edge->at_us = at_us;
    edge->watch = level ? (uint8_t)(watch | LEVEL_BIT) : watch;
  } else if (edges.lost != UINT16_MAX) {
    edges.lost++;
  }
}

bool edges_held(void) {
  return edges.held;
}

bool edges_held_of(uint32_t number) {
  return edges.held && edges.number == number;
}

bool edges_held_below(uint32_t number) {
  return edges.held && edges.number < number;
}

void edges_write(uint16_t from) {
  uint16_t start = from < edges.kept ? from : edges.kept;
  uint16_t count = (uint16_t)(edges.kept - start);
  uint16_t fit = (uint16_t)((frame_out_room() - HEAD_BYTES) / EDGE_BYTES);
  if (count > fit) {
    count = fit;
  }
  if (count > UINT8_MAX) {
    count = UINT8_MAX;
  }
  frame_out_32(edges.number);
  frame_out_16(edges.kept);
  frame_out_16(edges.lost);
  frame_out_16(start);
  frame_out_8((uint8_t)count);
  for (uint16_t i = 0; i < count; i++) {
    frame_out_32(edges.edge[start + i].at_us);
    frame_out_8(edges.edge[start + i].watch);
  }
}

#endif
