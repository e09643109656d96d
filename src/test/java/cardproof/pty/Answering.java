package cardproof.pty;

import java.util.ArrayDeque;
import java.util.function.UnaryOperator;

/** Answers each run of bytes as it came, after a fixed delay; an empty answer is none. */
public final class Answering implements Device {
  private record Answer(byte[] bytes, long dueNs) {}

  private final UnaryOperator<byte[]> script;
  private final long delayNs;
  private final ArrayDeque<Answer> answers = new ArrayDeque<>();
  private int offset;

  public Answering(UnaryOperator<byte[]> script, long delayNs) {
    this.script = script;
    this.delayNs = delayNs;
  }

  @Override
  public void receive(byte[] bytes, int count, long nowNs) {
    byte[] run = new byte[count];
    System.arraycopy(bytes, 0, run, 0, count);
    byte[] answer = script.apply(run);
    if (answer.length > 0) {
      answers.add(new Answer(answer, nowNs + delayNs));
    }
  }

  @Override
  public long nextDueNs() {
    return answers.isEmpty() ? NEVER : answers.element().dueNs;
  }

  @Override
  public int produce(byte[] into, long nowNs) {
    int count = 0;
    while (count < into.length && nextDueNs() <= nowNs) {
      byte[] bytes = answers.element().bytes;
      int part = Math.min(bytes.length - offset, into.length - count);
      System.arraycopy(bytes, offset, into, count, part);
      count += part;
      offset += part;
      if (offset == bytes.length) {
        answers.remove();
        offset = 0;
      }
    }
    return count;
  }
}
