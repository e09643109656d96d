package cardproof.files;

import java.util.List;

/** What an entry of {@code parts} becomes each time that it is spelled out. */
interface PartForm {
  /** How many parts come of it each time, at least 1. */
  long parts();

  /** Every net that it names. */
  List<IndexText> nets();

  /** Makes its parts; where one cannot be made, says why and leaves it out. */
  void make(Making making);
}
