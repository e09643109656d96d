#include "tally.h"

#include "port.h"
#include "session.h"

static struct {
  uint8_t moves[BOARD_WATCHES_MOST];
  uint16_t changes[BOARD_WATCHES_MOST];
} tally;

void tally_clear(void) {
  for (uint8_t i = 0; i < BOARD_WATCHES; i++) {
    tally.moves[i] = 0;
    tally.changes[i] = 0;
    if ((i & 7u) == 7u) {
      port_look();
    }
  }
}

bool tally_count(uint8_t watch, bool move) {
  if (move && tally.moves[watch] != UINT8_MAX) {
    tally.moves[watch]++;
  }
  if (tally.changes[watch] != UINT16_MAX) {
    tally.changes[watch]++;
  }
  return tally.moves[watch] >= session.moves_most || tally.changes[watch] >= session.changes_most;
}
