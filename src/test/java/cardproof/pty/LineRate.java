package cardproof.pty;

/**
 * Lets a device speak no faster than a line of {@code baud} carries, ten bits a byte: a
 * pseudo-terminal has no rate of its own. A byte leaves when its last bit would.
 */
public final class LineRate implements Device {
  private static final long BITS_PER_BYTE = 10;
  private static final long NS_PER_S = 1_000_000_000L;

  private final Device device;
  private final long byteNs;
  private final byte[] buffer = new byte[4096];
  private int first;
  private int end;
  private long firstDoneNs;

  public LineRate(Device device, int baud) {
    this.device = device;
    this.byteNs = BITS_PER_BYTE * NS_PER_S / baud;
  }

  @Override
  public void receive(byte[] bytes, int count, long nowNs) {
    device.receive(bytes, count, nowNs);
  }

  @Override
  public long nextDueNs() {
    return first < end ? firstDoneNs : device.nextDueNs();
  }

  @Override
  public int produce(byte[] into, long nowNs) {
    if (first == end && device.nextDueNs() <= nowNs) {
      long startNs = Math.max(firstDoneNs - byteNs, device.nextDueNs());
      first = 0;
      end = device.produce(buffer, nowNs);
      firstDoneNs = startNs + byteNs;
    }
    int count = 0;
    while (count < into.length && first < end && firstDoneNs <= nowNs) {
      into[count++] = buffer[first++];
      firstDoneNs += byteNs;
    }
    return count;
  }

  @Override
  public int appetite(long nowNs) {
    return device.appetite(nowNs);
  }
}
