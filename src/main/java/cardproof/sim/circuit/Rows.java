package cardproof.sim.circuit;

/**
 * For each of a number of owners a row of items, all rows one after another in one array.
 *
 * @param start by owner, where its row starts; one entry more than there are owners
 * @param item all rows
 */
record Rows(int[] start, int[] item) {
  /**
   * @param ownerOf by item, who owns it; below 0 for none
   */
  static Rows of(int owners, int[] ownerOf) {
    int[] items = new int[ownerOf.length];
    for (int i = 0; i < items.length; i++) {
      items[i] = i;
    }
    return of(owners, ownerOf, items);
  }

  /**
   * @param ownerOf by entry, who owns it; below 0 for none
   * @param items by entry, what is put into the row, in this order
   */
  static Rows of(int owners, int[] ownerOf, int[] items) {
    int[] start = new int[owners + 1];
    for (int owner : ownerOf) {
      if (owner >= 0) {
        start[owner + 1]++;
      }
    }
    for (int o = 0; o < owners; o++) {
      start[o + 1] += start[o];
    }
    int[] next = start.clone();
    int[] item = new int[start[owners]];
    for (int i = 0; i < ownerOf.length; i++) {
      if (ownerOf[i] >= 0) {
        item[next[ownerOf[i]]++] = items[i];
      }
    }
    return new Rows(start, item);
  }

  /** Both ends of each item own it. */
  static Rows ofEnds(int owners, int[] first, int[] second) {
    int[] owner = new int[2 * first.length];
    int[] item = new int[2 * first.length];
    for (int i = 0; i < first.length; i++) {
      owner[2 * i] = first[i];
      owner[2 * i + 1] = second[i];
      item[2 * i] = i;
      item[2 * i + 1] = i;
    }
    return of(owners, owner, item);
  }
}
