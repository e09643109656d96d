package cardproof.plan;

/** One thing wrong with a {@link MemoryModel}; as it stands, nothing is. */
interface MemoryFault {
  /** The words that an address reaches. */
  default int[] reached(int address) {
    return new int[] {address};
  }

  /** What the lines of one word carry in place of this, on the way in and out. */
  default int carried(int word) {
    return word;
  }

  /** What a word becomes where it held one thing and is to hold another. */
  default int stored(int address, int before, int wanted) {
    return wanted;
  }

  /** What else a write changes. */
  default void after(int[] before, int[] words) {}

  /** A cell that is always the same. */
  static MemoryFault stuck(int address, int bit, int value) {
    return new MemoryFault() {
      @Override
      public int stored(int at, int before, int wanted) {
        return at == address ? wanted & ~(1 << bit) | value << bit : wanted;
      }
    };
  }

  /** A cell that goes one way only: to {@code from} but never away from it again. */
  static MemoryFault transition(int address, int bit, int from) {
    return new MemoryFault() {
      @Override
      public int stored(int at, int before, int wanted) {
        boolean kept = at == address && (before >> bit & 1) == from;
        return kept ? wanted & ~(1 << bit) | from << bit : wanted;
      }
    };
  }

  /** An address that reaches other words than its own, or none. */
  static MemoryFault decoder(int address, int... words) {
    return new MemoryFault() {
      @Override
      public int[] reached(int at) {
        return at == address ? words : new int[] {at};
      }
    };
  }

  /** Two lines of the data in one, wired-OR. */
  static MemoryFault bridge(int bit, int other) {
    return new MemoryFault() {
      @Override
      public int carried(int word) {
        int both = 1 << bit | 1 << other;
        return (word & both) == 0 ? word : word | both;
      }
    };
  }

  /** A cell of one word that acts upon a cell of another. */
  record Pair(int address, int bit, int victim, int victimBit) {
    int of(int[] words) {
      return words[address] >> bit & 1;
    }

    void force(int[] words, int value) {
      words[victim] = words[victim] & ~(1 << victimBit) | value << victimBit;
    }
  }

  /** Going to {@code to} turns the other cell over. */
  static MemoryFault inversion(Pair pair, int to) {
    return new MemoryFault() {
      @Override
      public void after(int[] before, int[] words) {
        if (pair.of(before) != to && pair.of(words) == to) {
          words[pair.victim()] ^= 1 << pair.victimBit();
        }
      }
    };
  }

  /** Going to {@code to} sets the other cell to a value. */
  static MemoryFault idempotent(Pair pair, int to, int value) {
    return new MemoryFault() {
      @Override
      public void after(int[] before, int[] words) {
        if (pair.of(before) != to && pair.of(words) == to) {
          pair.force(words, value);
        }
      }
    };
  }

  /** Being at {@code state} holds the other cell at a value. */
  static MemoryFault state(Pair pair, int state, int value) {
    return new MemoryFault() {
      @Override
      public void after(int[] before, int[] words) {
        if (pair.of(words) == state) {
          pair.force(words, value);
        }
      }
    };
  }
}
