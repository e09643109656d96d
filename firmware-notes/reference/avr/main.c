/*
 * The sampling of the AVR ports, and their UART. Where the watches are the chip's own pins, a timer's interrupt takes
 * a sample every few microseconds and the received bytes with it, whatever the program is at; so a stamp is never late
 * because a frame was being made. With shift registers a sample takes too long for that, and the loop takes it: then a
 * look every 80 us loses no byte, since one takes 40 us at 250,000 baud and the UART holds two.
 */
#include <avr/io.h>
#include <avr/wdt.h>

#include "bench.h"
#include "board.h"
#include "port.h"
#include "avr/chip.h"

#define BAUD_DIVISOR 7u /* 16 MHz / (8 * (7 + 1)) = 250,000 */

#ifdef SAMPLE_COMPARE
#define PERIOD_CYCLES (BOARD_PERIOD_TICKS * 8u)
#endif

#define RECEIVE_NEXT(index) ((uint8_t)(((index) + 1) & (RECEIVE_BYTES - 1)))

/* Seen by name where the interrupt is written out, in this order. */
struct received {
  volatile uint8_t head;
  uint8_t tail;
  uint8_t bytes[RECEIVE_BYTES];
};

extern struct received received;
struct received received __attribute__((used, externally_visible));

#ifdef SAMPLE_COMPARE

/* The interrupt has taken the bytes in already. */
static inline __attribute__((always_inline)) void receive(void) {
  if (received.head != received.tail) {
    bench_work = true;
  }
}

#else

static inline __attribute__((always_inline)) void receive(void) {
  if (UCSR0A & _BV(RXC0)) {
    uint8_t next = RECEIVE_NEXT(received.head);
    uint8_t byte = UDR0;
    if (next != received.tail) { /* else the frame is damaged, and its check says so */
      received.bytes[received.head] = byte;
      received.head = next;
      bench_work = true;
    }
  }
}

#endif

/* Keeps a sample that differs; false when there is no room, as if it had not been taken. */
static inline __attribute__((always_inline)) bool keep(uint16_t tick, uint8_t a, uint8_t b, uint8_t c) {
  uint8_t head = changes.head;
  uint8_t next = CHANGES_NEXT(head);
  if (next == changes.tail) {
    return false;
  }
  struct change *change = &changes.ring[head];
  change->tick = tick;
  change->lines[0] = a;
  changes.seen[0] = a;
#if SAMPLE_BYTES > 1
  change->lines[1] = b;
  change->lines[2] = c;
  changes.seen[1] = b;
  changes.seen[2] = c;
#else
  (void)b;
  (void)c;
#endif
  changes.head = next;
  return true;
}

#ifdef SAMPLE_COMPARE

/* Cycles from the comparison that found a difference to the counter that is read here, as ticks. */
#define LAG_TICKS 5u
/* From the counter to the next comparison, when that has been waiting. */
#define AFTER_TICKS 12u

/* A sample that differs is taken once more, whole; a few microseconds of blind time come of it. */
static void sample_changed(void) __attribute__((used, noinline));
static void sample_changed(void) {
  uint8_t a;
  uint8_t b = 0;
  uint8_t c = 0;
  uint16_t tick = board_sample(&a, &b, &c);
  if (keep((uint16_t)(tick - LAG_TICKS), a, b, c)) {
    sample_note(a, b, c);
  }
  uint16_t gap = (uint16_t)(TCNT1 - tick + LAG_TICKS + AFTER_TICKS);
  if (gap > changes.blind) {
    changes.blind = gap;
  }
}

/*
 * Samples every watch, every PERIOD_CYCLES. Nothing else is ever done by an interrupt. The common case, no change, is
 * written out, and takes about half of the chip's time.
 */
ISR(TIMER0_COMPA_vect, ISR_NAKED) {
  __asm__ volatile(
      "push r24\n\t in r24, __SREG__\n\t push r24\n\t push r25\n\t" SAMPLE_COMPARE
      "lds r24, %[status]\n\t sbrc r24, 7\n\t rjmp 2f\n\t"
      "0: pop r25\n\t pop r24\n\t out __SREG__, r24\n\t pop r24\n\t reti\n\t"
      "1: push r0\n\t push r1\n\t push r18\n\t push r19\n\t push r20\n\t push r21\n\t push r22\n\t"
      "push r23\n\t push r26\n\t push r27\n\t push r30\n\t push r31\n\t clr r1\n\t"
      "call sample_changed\n\t"
      "pop r31\n\t pop r30\n\t pop r27\n\t pop r26\n\t pop r23\n\t pop r22\n\t pop r21\n\t pop r20\n\t"
      "pop r19\n\t pop r18\n\t pop r1\n\t pop r0\n\t lds r24, %[status]\n\t sbrs r24, 7\n\t rjmp 0b\n\t"
      "2: push r30\n\t push r31\n\t lds r30, received\n\t mov r25, r30\n\t ldi r31, 0\n\t"
      "subi r30, lo8(-(received + 2))\n\t sbci r31, hi8(-(received + 2))\n\t"
      "lds r24, %[data]\n\t st Z, r24\n\t inc r25\n\t andi r25, %[most]\n\t"
      "lds r24, received + 1\n\t cpse r24, r25\n\t sts received, r25\n\t"
      "pop r31\n\t pop r30\n\t rjmp 0b\n\t" ::SAMPLE_PORTS,
      [status] "n"(_SFR_MEM_ADDR(UCSR0A)), [data] "n"(_SFR_MEM_ADDR(UDR0)), [most] "M"(RECEIVE_BYTES - 1),
      [seen_a] "I"(_SFR_IO_ADDR(GPIOR0)), [seen_b] "I"(_SFR_IO_ADDR(GPIOR1)), [seen_c] "I"(_SFR_IO_ADDR(GPIOR2)));
}

static void sampling_begin(uint8_t a, uint8_t b, uint8_t c) {
  sample_note(a, b, c);
  TCCR0A = _BV(WGM01); /* counts to OCR0A and starts anew */
  OCR0A = PERIOD_CYCLES - 1u;
  TCCR0B = _BV(CS00);
  TIMSK0 = _BV(OCIE0A);
  sei();
}

/* The tick up to which samples have been taken: that of the last comparison. */
static inline __attribute__((always_inline)) void look(void) {
  receive();
  cli();
  uint16_t tick = TCNT1;
  uint8_t waits = TIFR0 & _BV(OCF0A);
  sei();
  changes.last_tick = (uint16_t)(tick - (waits ? 2u * BOARD_PERIOD_TICKS : BOARD_PERIOD_TICKS));
}

void port_look(void) {
  receive();
}

#else

static inline void sampling_begin(uint8_t a, uint8_t b, uint8_t c) {
  (void)a;
  (void)b;
  (void)c;
}

static inline __attribute__((always_inline)) void look(void) {
  uint8_t a;
  uint8_t b = 0;
  uint8_t c = 0;
  uint16_t tick = board_sample(&a, &b, &c);
  receive();
  bool differs = a != changes.seen[0];
#if SAMPLE_BYTES > 1
  differs = differs || b != changes.seen[1] || c != changes.seen[2];
#endif
  if (differs && !keep(tick, a, b, c)) {
    return; /* as if there had been no sample */
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

#endif

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
  sampling_begin(lines[0], lines[1], lines[2]);
  for (;;) {
    wdt_reset();
    look();
    if (!bench_idle()) {
      bench_pass();
    }
  }
}
