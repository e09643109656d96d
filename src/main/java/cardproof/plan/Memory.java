package cardproof.plan;

import java.util.List;

/**
 * Where a memory card takes and gives its words, by bus index.
 *
 * @param address joined, the first most significant
 * @param data takes the word to be written, and is let go of for reading
 * @param out where a word comes back; the same as {@code data} on a shared bus
 * @param write the one line that takes a word while it is 1
 * @param read the one line that gives a word while it is 1
 * @param words from address 0 up
 */
public record Memory(List<Integer> address, int data, int out, int write, int read, int words) {
  public Memory {
    address = List.copyOf(address);
  }
}
