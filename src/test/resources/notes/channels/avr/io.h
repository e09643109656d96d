/* Registers of the chip as plain variables, for a test that asks which pin is which channel. */
#include <stdint.h>

#define _BV(bit) (1u << (bit))
#define EACH_PORT(DO) DO(A) DO(B) DO(C) DO(D) DO(E) DO(F) DO(G) DO(H) DO(J) DO(K) DO(L)
#define ONE_PORT(X)                                    \
  static volatile uint8_t PORT##X, DDR##X, PIN##X;     \
  enum { P##X##0, P##X##1, P##X##2, P##X##3, P##X##4, P##X##5, P##X##6, P##X##7 };
EACH_PORT(ONE_PORT)

static volatile uint16_t TCNT1;
static volatile uint8_t GPIOR0, GPIOR1, GPIOR2;
static volatile uint8_t SPCR, SPSR, MCUCR;
enum { JTD = 7 };
enum { MSTR = 4, SPE = 6 };
enum { SPI2X = 0, SPIF = 7 };

/* The serial port of the shift registers: what is written is kept in order, what is read comes from a list. */
struct Shifted {
  uint8_t sent[16];
  uint8_t answers[16];
  unsigned count;
  void operator=(uint8_t byte) {
    sent[count++] = byte;
    SPSR = _BV(SPIF);
  }
  operator uint8_t() { return answers[count - 1]; }
};
static Shifted SPDR;
