#include "tally.h"

#include "port.h"
#include "session.h"

struct tally tally[BOARD_WATCHES_MOST];

void tally_clear(void) {
  uint8_t moves_most = session.moves_most;
  uint16_t changes_most = session.changes_most;
  for (uint8_t i = 0; i < BOARD_WATCHES; i++) {
    tally[i].moves_left = moves_most;
    tally[i].changes_left = changes_most;
    if ((i & 7u) == 7u) {
      port_look();
    }
  }
}
