/*
 * The sampling loop of the AVR ports, and their UART: everything is polled, interrupts stay off for good. A byte
 * takes 40 us at 250,000 baud and the UART holds two, so a look every 80 us would do to lose none.
 */
#include <avr/io.h>
#include <avr/wdt.h>

#include "bench.h"
#include "board.h"
#include "port.h"
#include "avr/chip.h"

#define BAUD_DIVISOR 7u /* 16 MHz / (8 * (7 + 1)) = 250,000 */

#define RECEIVE_NEXT(index) ((uint8_t)(((index) + 1) & (RECEIVE_BYTES - 1)))

static struct {
  uint8_t head;
  uint8_t tail;
  uint8_t bytes[RECEIVE_BYTES];
} received;

static inline __attribute__((always_inline)) void look(void) {
  uint8_t a;
  uint8_t b = 0;
  uint8_t c = 0;
  uint16_t tick = board_sample(&a, &b, &c);
  if (UCSR0A & _BV(RXC0)) {
    uint8_t next = RECEIVE_NEXT(received.head);
    uint8_t byte = UDR0;
    if (next != received.tail) { /* else the frame is damaged, and its check says so */
      received.bytes[received.head] = byte;
      received.head = next;
      bench_work = true;
    }
  }
  if (a != changes.seen[0]
#if SAMPLE_BYTES > 1
      || b != changes.seen[1] || c != changes.seen[2]
#endif
  ) {
    uint8_t next = CHANGES_NEXT(changes.head);
    if (next == changes.tail) {
      return; /* as if there had been no sample */
    }
    struct change *change = &changes.ring[changes.head];
    change->tick = tick;
    change->lines[0] = a;
    changes.seen[0] = a;
#if SAMPLE_BYTES > 1
    change->lines[1] = b;
    change->lines[2] = c;
    changes.seen[1] = b;
    changes.seen[2] = c;
#endif
    changes.head = next;
  }
  uint16_t gap = (uint16_t)(tick - changes.last_tick);
  changes.last_tick = tick;
  if (gap > changes.blind) {
    changes.blind = gap;
  }
}

void port_look(void) {
  look();
}

bool port_receive(uint8_t *byte) {
  if (received.head == received.tail) {
    return false;
  }
  *byte = received.bytes[received.tail];
  received.tail = RECEIVE_NEXT(received.tail);
  return true;
}

bool port_can_send(void) {
  return (UCSR0A & _BV(UDRE0)) != 0;
}

void port_send(uint8_t byte) {
  UDR0 = byte;
}

static void uart_begin(void) {
  UCSR0A = _BV(U2X0); /* before the divisor, which is meant for it */
  UBRR0 = BAUD_DIVISOR;
  UCSR0C = _BV(UCSZ01) | _BV(UCSZ00);
  UCSR0B = _BV(RXEN0) | _BV(TXEN0);
}

int main(void) {
  board_begin();
  boot_begin();
  wdt_enable(WDTO_250MS);
  TCCR1A = 0;
  TCCR1B = _BV(CS11); /* a tick every half microsecond */
  uart_begin();
  uint8_t lines[3] = {0, 0, 0};
  uint16_t tick = board_sample(&lines[0], &lines[1], &lines[2]);
  bench_begin(tick, lines);
  for (;;) {
    wdt_reset();
    look();
    if (!bench_idle()) {
      bench_pass();
    }
  }
}
