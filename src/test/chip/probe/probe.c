/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A program of a few lines whose every cycle can be told, to prove the simulated chip by. Drive 0 is PC0, watch 0 is
 * PB0 (on the ATmega2560 PB0 too). Both chips; 16 MHz; 250,000 baud.
 *
 * From reset: says 'R' and the reset cause, then does what each byte asks for:
 *   a letter  sends it back
 *   '0' '1'   puts drive 0 to this level
 *   'p'       a pulse of exactly 160 cycles on drive 0
 *   'z'       lets go of drive 0: an input with a pull-up
 *   't'       turns drive 0 over on watch 0's next change
 *   '?'       says the level of watch 0
 *   'd'       deaf for 50,000 cycles, then sends what there is to read, how many that was, and 'D' if some were lost, else '-'
 *   's'       uses 200 bytes more of stack
 *   'w'       goes round in circles until the watchdog bites, 16 ms later
 *   '!'       says the level of PF4
 *   '['       writes JTD once
 *   '|'       writes JTD twice, six cycles apart
 *   ']'       writes JTD twice, four cycles apart
 *   '#'       sends 100 bytes without a pause
 */
#include <avr/io.h>
#include <avr/wdt.h>
#include <util/delay_basic.h>

static uint8_t cause __attribute__((section(".noinit")));

void keep_cause(void) __attribute__((naked, used, section(".init3")));
void keep_cause(void) {
  cause = MCUSR;
  MCUSR = 0;
  wdt_disable();
}

static void send(uint8_t byte) {
  while ((UCSR0A & _BV(UDRE0)) == 0) {
  }
  UDR0 = byte;
}

static uint8_t receive(void) {
  while ((UCSR0A & _BV(RXC0)) == 0) {
  }
  return UDR0;
}

static void pulse(void) {
  __asm__ volatile(
      "sbi %[port], 0\n\t"  /* two cycles */
      "ldi r24, 52\n\t"     /* one */
      "1: dec r24\n\t"      /* 52 times one */
      "brne 1b\n\t"         /* 51 times two, and one */
      "nop\n\t nop\n\t"    /* two */
      "cbi %[port], 0\n\t" ::[port] "I"(_SFR_IO_ADDR(PORTC))
      : "r24");
}

static void deaf(void) {
  _delay_loop_2(12500); /* four cycles each */
  uint8_t lost = UCSR0A & _BV(DOR0);
  uint8_t count = 0;
  while (UCSR0A & _BV(RXC0)) {
    count++;
    send(UDR0);
  }
  send((uint8_t)('0' + count));
  send(lost ? 'D' : '-');
}

static void __attribute__((noinline)) stack(void) {
  volatile uint8_t much[200];
  for (uint8_t i = 0; i < sizeof much; i++) {
    much[i] = i;
  }
}

static void follow(void) {
  uint8_t before = PINB & _BV(PB0);
  while ((PINB & _BV(PB0)) == before) {
  }
  PORTC ^= _BV(PC0);
}

#ifdef JTD

static uint8_t pin_f4(void) {
  return PINF >> PF4 & 1;
}

/* One cycle between the writes, and one more for each nop. */
#define JTD_TWICE(nops)                                                                          \
  __asm__ volatile("out %[control], %[off]\n\t" nops "out %[control], %[off]" ::[control] "I"( \
                       _SFR_IO_ADDR(MCUCR)),                                                     \
                   [off] "r"((uint8_t)_BV(JTD)))

static void jtag(uint8_t how) {
  if (how == '[') {
    MCUCR = _BV(JTD);
  } else if (how == '|') {
    JTD_TWICE("nop\n\t nop\n\t nop\n\t nop\n\t nop\n\t");
  } else {
    JTD_TWICE("nop\n\t nop\n\t nop\n\t");
  }
}

#else

static uint8_t pin_f4(void) {
  return 0;
}

static void jtag(uint8_t how) {
  (void)how;
}

#endif

int main(void) {
  UCSR0A = _BV(U2X0);
#ifdef WRONG_RATE
  UBRR0 = 8;
#else
  UBRR0 = 7;
#endif
  UCSR0B = _BV(RXEN0) | _BV(TXEN0);
  DDRC = _BV(PC0);
  send('R');
  send((uint8_t)('0' + cause));
  for (;;) {
    uint8_t byte = receive();
    switch (byte) {
      case '0':
        PORTC &= (uint8_t)~_BV(PC0);
        break;
      case '1':
        PORTC |= _BV(PC0);
        break;
      case 'p':
        pulse();
        break;
      case 'z':
        DDRC = 0;
        break;
      case 't':
        follow();
        break;
      case '?':
        send((uint8_t)('0' + (PINB & _BV(PB0))));
        break;
      case 'd':
        deaf();
        break;
      case 's':
        stack();
        break;
      case 'w':
        wdt_enable(WDTO_15MS);
        for (;;) {
        }
      case '!':
        send((uint8_t)('0' + pin_f4()));
        break;
      case '[':
      case '|':
      case ']':
        jtag(byte);
        break;
      case '#':
        for (uint8_t i = 0; i < 100; i++) {
          send('x');
        }
        break;
      default:
        send(byte);
        break;
    }
  }
}
