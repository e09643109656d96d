package cardproof.pty;

import cardproof.link.Message;
import java.util.BitSet;

/** Is told what a {@link PacedBoard} does, as it does it. */
public interface BoardEvents {
  /** The drives were switched. */
  void drives(BitSet on);

  void heard(Message fromHost);

  void said(Message toHost);
}
