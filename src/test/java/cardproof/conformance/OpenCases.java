package cardproof.conformance;

import static org.assertj.core.api.Assertions.assertThat;

/** Sections 2 and 5: OPEN and sessions. */
final class OpenCases {
  private OpenCases() {}

  static Section section() {
    return new Section("2, 5 OPEN and sessions")
        .add(
            "OPEN starts from nothing",
            bench -> {
              Status status = bench.open(Open.USUAL);
              assertThat(status.state()).isEqualTo(Status.OPENED);
              assertThat(status.cause()).isEqualTo(Status.BY_OPEN);
              assertThat(status.chattered()).isEqualTo(255);
              assertThat(status.next() + status.finished() + status.acked()).isZero();
              assertThat(status.drives()).isEqualTo(Sets.of());
            })
        .add("OPEN in a run drops and empties everything", OpenCases::openInRun)
        .add(
            "OPEN again of the session in place changes nothing",
            bench -> {
              bench.live(Open.USUAL);
              bench.run(Step.of(0, 0));
              HelloR shape = bench.shape();
              Status status =
                  bench.status(
                      Open.USUAL.frame(bench.session(), shape, shape.boot(), shape.session()));
              assertThat(status.state()).isEqualTo(Status.READY);
              assertThat(status.finished()).isEqualTo(1);
              assertThat(status.drives()).isEqualTo(Sets.of(0));
            })
        .add(
            "OPEN with another boot number is refused",
            bench -> {
              bench.live(Open.USUAL);
              HelloR shape = bench.hello(1);
              refused(bench, Open.USUAL.frame(9, shape, shape.boot() + 1, shape.session()));
            })
        .add(
            "OPEN that follows another session is refused",
            bench -> {
              bench.live(Open.USUAL);
              HelloR shape = bench.hello(1);
              refused(bench, Open.USUAL.frame(9, shape, shape.boot(), shape.session() + 1));
              refused(bench, Open.USUAL.frame(9, shape, shape.boot(), 0));
            })
        .add("an OPEN held up on its way ends no later session", OpenCases::heldUp)
        .add(
            "an OPEN held up on its way is refused after a reset",
            bench -> {
              Case.needs(bench, Peer.Offer.RESET);
              HelloR before = bench.hello(1);
              bench.reset(bench.peer().resetCauses().iterator().next());
              Nack nack = bench.nack(Open.USUAL.frame(9, before, before.boot(), before.session()));
              assertThat(nack.reason()).isEqualTo(Nack.WRONG_SESSION);
              assertThat(bench.hello(1).session()).isZero();
            })
        .add(
            "OPEN of session 0 opens nothing",
            bench -> {
              HelloR shape = bench.hello(1);
              bench.send(Open.USUAL.frame(0, shape, shape.boot(), shape.session()));
              bench.idle(Bench.ANSWER_US);
              for (Arrived status : bench.came(Type.STATUS)) {
                assertThat(Status.of(status.frame().body(), shape).state()).isEqualTo(Status.SAFE);
              }
            })
        .add("silence below 100 ms is refused", bench -> field(bench, Open.USUAL.silence(99), 8))
        .add("silence above 10 s is refused", bench -> field(bench, Open.USUAL.silence(10_001), 8))
        .add(
            "fewer than 2 moves are refused",
            bench -> field(bench, Open.USUAL.chatter(1, 100, 0), 10))
        .add(
            "fewer than 16 changes are refused",
            bench -> field(bench, Open.USUAL.chatter(2, 15, 0), 11))
        .add("no hold time at all is refused", bench -> field(bench, Open.USUAL.hold(0), 15))
        .add(
            "the extremes of every field are taken",
            bench -> {
              bench.open(Open.USUAL.silence(100).chatter(2, 16, 0).hold(1));
              bench.open(Open.USUAL.silence(10_000).chatter(255, 65535, 65535).hold(0xFFFFFFFFL));
            })
        .add(
            "OPEN of a wrong length is refused",
            bench -> {
              HelloR shape = bench.hello(1);
              byte[] body = Open.USUAL.frame(9, shape, shape.boot(), shape.session()).body();
              byte[] shorter = java.util.Arrays.copyOf(body, body.length - 1);
              byte[] longer = java.util.Arrays.copyOf(body, body.length + 1);
              assertThat(bench.nack(new Frame(Type.OPEN, 9, shorter)).reason())
                  .isEqualTo(Nack.BAD_LENGTH);
              assertThat(bench.nack(new Frame(Type.OPEN, 9, longer)).reason())
                  .isEqualTo(Nack.BAD_LENGTH);
            })
        .add(
            "length is tested before session, and session before fields",
            bench -> {
              bench.open(Open.USUAL);
              HelloR shape = bench.hello(1);
              Open bad = Open.USUAL.silence(1);
              assertThat(bench.nack(bad.frame(9, shape, shape.boot() + 1, 0)).reason())
                  .isEqualTo(Nack.WRONG_SESSION);
              assertThat(bench.nack(new Frame(Type.OPEN, 9, new byte[3])).reason())
                  .isEqualTo(Nack.BAD_LENGTH);
            })
        .add(
            "a refused OPEN leaves the run as it is",
            bench -> {
              bench.live(Open.USUAL);
              bench.run(Step.of(0, 0));
              HelloR shape = bench.hello(1);
              bench.nack(Open.USUAL.silence(1).frame(9, shape, shape.boot(), shape.session()));
              Status status = bench.now();
              assertThat(status.state()).isEqualTo(Status.READY);
              assertThat(status.drives()).isEqualTo(Sets.of(0));
            })
        .add("frames of another session have no effect", OpenCases::otherSession)
        .add(
            "step numbers begin at 0 in each session",
            bench -> {
              bench.live(Open.USUAL);
              bench.run(Step.of(0, 0));
              bench.run(Step.of(1));
              bench.live(Open.USUAL);
              assertThat(bench.run(Step.of(0, 0)).step()).isZero();
            })
        .add(
            "answers carry the session in place",
            bench -> {
              bench.live(Open.USUAL);
              bench.run(Step.of(0, 0));
              bench.stop();
              bench.now();
              bench.came(Type.RESULT).forEach(at -> hasSession(at, bench.session()));
              bench.came(Type.STATUS).forEach(at -> hasSession(at, bench.session()));
            });
  }

  private static void hasSession(Arrived arrived, int session) {
    assertThat(arrived.frame().session()).isEqualTo(session);
  }

  private static void field(Bench bench, Open open, int offset) {
    HelloR shape = bench.hello(1);
    Nack nack = bench.nack(open.frame(9, shape, shape.boot(), shape.session()));
    assertThat(nack.reason()).isEqualTo(Nack.BAD_FIELD);
    assertThat(nack.detail()).isEqualTo(offset);
    assertThat(bench.hello(1).session()).as("session in place").isEqualTo(shape.session());
  }

  private static void refused(Bench bench, Frame open) {
    assertThat(bench.nack(open).reason()).isEqualTo(Nack.WRONG_SESSION);
    assertThat(bench.now().state()).isEqualTo(Status.READY);
  }

  private static void openInRun(Bench bench) {
    bench.live(Open.USUAL);
    bench.give(Step.of(0, 0).flags(Step.AUDIT).times(0, 200_000, 1000));
    bench.give(Step.of(1, 1));
    bench.idle(20_000);
    assertThat(bench.now().state()).isEqualTo(Status.RUN);
    Status status = bench.open(Open.USUAL);
    assertThat(status.drives()).isEqualTo(Sets.of());
    assertThat(status.cause()).isEqualTo(Status.BY_OPEN);
    assertThat(status.next() + status.finished() + status.acked()).isZero();
    bench.pass(300_000);
    assertThat(bench.came(Type.RESULT).stream().map(at -> at.frame().session()))
        .as("results of the new session")
        .doesNotContain(bench.session());
    assertThat(bench.now().drives()).isEqualTo(Sets.of());
  }

  private static void heldUp(Bench bench) {
    HelloR before = bench.hello(1);
    Frame late = Open.USUAL.frame(77, before, before.boot(), before.session());
    bench.live(Open.USUAL);
    bench.run(Step.of(0, 0));
    assertThat(bench.nack(late).reason()).isEqualTo(Nack.WRONG_SESSION);
    assertThat(bench.now().drives()).isEqualTo(Sets.of(0));
    bench.stop();
    assertThat(bench.nack(late).reason()).isEqualTo(Nack.WRONG_SESSION);
    assertThat(bench.hello(1).session()).isEqualTo(bench.session());
  }

  private static void otherSession(Bench bench) {
    bench.live(Open.USUAL);
    bench.run(Step.of(0, 0));
    int other = bench.session() ^ 0x100;
    HelloR shape = bench.shape();
    for (Frame frame :
        new Frame[] {
          Frame.of(Type.ARM, other),
          Frame.of(Type.STOP, other),
          new Frame(Type.RESUME, other, new byte[4]),
          Step.of(1, 1).frame(other, shape),
          new Frame(Type.BEAT, other, new byte[] {1, 0, 0, 0}),
          new Frame(Type.READ, other, new byte[4])
        }) {
      Nack nack = bench.nack(frame);
      assertThat(nack.reason()).as(frame.toString()).isEqualTo(Nack.WRONG_SESSION);
      assertThat(nack.next()).isEqualTo(1);
      assertThat(nack.detail()).isZero();
    }
    Status status = bench.now();
    assertThat(status.state()).isEqualTo(Status.READY);
    assertThat(status.next()).isEqualTo(1);
    assertThat(status.acked()).isZero();
    assertThat(status.drives()).isEqualTo(Sets.of(0));
  }
}
