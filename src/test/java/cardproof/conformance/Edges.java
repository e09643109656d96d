package cardproof.conformance;

import java.util.ArrayList;
import java.util.List;

/** EDGES, section 9.2 (0x94). */
record Edges(long step, int kept, int lost, int index, List<Edge> edges) {
  record Edge(long atUs, int watch, boolean level) {}

  static Edges of(byte[] body) {
    Fields f = new Fields(body);
    List<Edge> edges = new ArrayList<>();
    if (body.length != 11 + 5 * f.u8(10)) {
      throw new AssertionError("EDGES of " + body.length + " bytes with " + f.u8(10) + " edges");
    }
    for (int at = 11; at < body.length; at += 5) {
      edges.add(new Edge(f.u32(at), f.u8(at + 4) & 0x7F, f.u8(at + 4) > 0x7F));
    }
    return new Edges(f.u32(0), f.u16(4), f.u16(6), f.u16(8), edges);
  }
}
