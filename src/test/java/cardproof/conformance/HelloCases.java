package cardproof.conformance;

import static org.assertj.core.api.Assertions.assertThat;

/** Sections 2 and 5: HELLO, versions, boots. */
final class HelloCases {
  private HelloCases() {}

  static Section section() {
    return new Section("2, 5 HELLO and boots")
        .add("HELLO_R says what the page wants", HelloCases::fields)
        .add(
            "the number in HELLO comes back",
            bench -> {
              bench.send(new Frame(Type.HELLO, 0xFFFFFFFF, new byte[] {1, 0}));
              assertThat(bench.await(Type.HELLO_R).session()).isEqualTo(0xFFFFFFFF);
              bench.send(new Frame(Type.HELLO, 0, new byte[] {1, 0}));
              assertThat(bench.await(Type.HELLO_R).session()).isZero();
            })
        .add(
            "a host of 1.0 gets 1.0 and no more fields",
            bench -> {
              HelloR hello = bench.hello(0);
              assertThat(hello.minor()).isZero();
              assertThat(hello.length()).isEqualTo(42);
            })
        .add(
            "a host of 1.1 gets what the fixture speaks",
            bench -> {
              HelloR hello = bench.hello(1);
              assertThat(hello.minor()).isBetween(0, 1);
              assertThat(hello.length()).isEqualTo(hello.minor() == 0 ? 42 : 45);
              assertThat(hello.mostEntries() > 0).isEqualTo(hello.can(Capability.SEQUENCES));
              assertThat(hello.mostEdges() > 0).isEqualTo(hello.can(Capability.CAPTURE));
            })
        .add(
            "a host of a later minor version gets the fixture's own",
            bench -> {
              int own = bench.hello(1).minor();
              assertThat(bench.hello(200).minor()).isEqualTo(own);
            })
        .add(
            "another major version is answered all the same",
            bench -> {
              bench.send(new Frame(Type.HELLO, 5, new byte[] {2, 0}));
              HelloR hello = HelloR.of(bench.await(Type.HELLO_R).body());
              assertThat(hello.major()).isEqualTo(1);
            })
        .add(
            "HELLO shorter than two bytes is refused",
            bench -> {
              for (int length = 0; length < 2; length++) {
                Nack nack = bench.nack(new Frame(Type.HELLO, 5, new byte[length]));
                assertThat(nack.reason()).isEqualTo(Nack.BAD_LENGTH);
              }
            })
        .add(
            "what HELLO says beyond its two bytes is passed over",
            bench -> {
              HelloR usual = bench.hello(1);
              bench.send(new Frame(Type.HELLO, 5, new byte[] {1, 1, 7, 7, 7}));
              Frame answer = bench.await(Type.HELLO_R);
              assertThat(answer.session()).isEqualTo(5);
              assertThat(HelloR.of(answer.body()).minor()).isEqualTo(usual.minor());
              assertThat(HelloR.of(answer.body()).boot()).isEqualTo(usual.boot());
            })
        .add(
            "HELLO_R names the session in place, open or ended",
            bench -> {
              bench.open(Open.USUAL);
              assertThat(bench.hello(1).session()).isEqualTo(bench.session());
              bench.stop();
              assertThat(bench.hello(1).session()).isEqualTo(bench.session());
            })
        .add("HELLO in a run changes nothing", HelloCases::helloInRun)
        .add(
            "after a reset the fixture is safe and has no session",
            bench -> {
              Case.needs(bench, Peer.Offer.RESET);
              bench.live(Open.USUAL);
              bench.run(Step.of(0, 0));
              bench.reset(bench.peer().resetCauses().iterator().next());
              HelloR hello = bench.hello(1);
              assertThat(hello.session()).isZero();
              Status status = bench.open(Open.USUAL);
              assertThat(status.next() + status.finished() + status.acked()).isZero();
              assertThat(status.drives()).isEqualTo(Sets.of());
            })
        .add(
            "two boots have two numbers, and one boot has one",
            bench -> {
              Case.needs(bench, Peer.Offer.RESET);
              int first = bench.hello(1).boot();
              assertThat(bench.hello(1).boot()).isEqualTo(first);
              assertThat(bench.open(Open.USUAL).boot()).isEqualTo(first);
              long id = bench.shape().boardId();
              bench.reset(bench.peer().resetCauses().iterator().next());
              assertThat(bench.hello(1).boot()).isNotEqualTo(first);
              assertThat(bench.shape().boardId()).isEqualTo(id);
            })
        .add(
            "HELLO_R tells why it was reset",
            bench -> {
              Case.needs(bench, Peer.Offer.RESET);
              for (int cause : bench.peer().resetCauses()) {
                bench.reset(cause);
                assertThat(bench.hello(1).resetCause()).isEqualTo(cause);
              }
            })
        .add(
            "frames are counted from the reset on",
            bench -> {
              Case.needs(bench, Peer.Offer.RESET);
              bench.open(Open.USUAL);
              bench.raw(new byte[] {1, 2, 3, 0});
              bench.idle(5000);
              bench.reset(bench.peer().resetCauses().iterator().next());
              Status status = bench.open(Open.USUAL);
              assertThat(status.whole()).as("HELLO and OPEN").isEqualTo(2);
              assertThat(status.damaged()).isZero();
            })
        .add("a reset in a run drops the drives", HelloCases::resetInRun)
        .add(
            "before any OPEN a session is refused",
            bench -> {
              Case.needs(bench, Peer.Offer.RESET);
              bench.reset(bench.peer().resetCauses().iterator().next());
              Nack nack = bench.nack(Frame.of(Type.ARM, 0x5A17C0DE));
              assertThat(nack.reason()).isEqualTo(Nack.WRONG_SESSION);
              assertThat(nack.next()).isZero();
            });
  }

  private static void fields(Bench bench) {
    HelloR hello = bench.shape();
    assertThat(hello.letters()).isEqualTo("BENC");
    assertThat(hello.major()).isEqualTo(1);
    assertThat(hello.resetCause()).isBetween(0, 5);
    assertThat(hello.drives()).isPositive();
    assertThat(hello.watches()).isPositive();
    assertThat(hello.slots()).isGreaterThanOrEqualTo(2);
    assertThat(hello.longestFrame()).isLessThanOrEqualTo(512);
    assertThat(hello.periodNs()).isPositive();
    assertThat(hello.blindUs() * 1000L).isGreaterThanOrEqualTo(hello.periodNs() - 999);
    assertThat(hello.board()).matches("[ -~]{0,31}");
    assertThat(hello.capabilities() >> 8).as("bits without a meaning").isZero();
  }

  private static void helloInRun(Bench bench) {
    bench.live(Open.USUAL);
    bench.give(Step.of(0, 0).flags(Step.AUDIT).times(0, 60_000, 1000));
    bench.idle(10_000);
    HelloR hello = bench.hello(0);
    assertThat(hello.session()).isEqualTo(bench.session());
    Status status = bench.now();
    assertThat(status.state()).isEqualTo(Status.RUN);
    assertThat(status.drives()).isEqualTo(Sets.of(0));
    Result result = bench.result(Step.of(0, 0).times(0, 60_000, 1000));
    assertThat(result.has(Result.STOPPED)).isFalse();
    assertThat(result.durationUs()).isGreaterThanOrEqualTo(60_000);
  }

  private static void resetInRun(Bench bench) {
    Case.needs(bench, Peer.Offer.RESET);
    bench.live(Open.USUAL);
    bench.give(Step.of(0, 0, 1).flags(Step.AUDIT).times(0, 500_000, 1000));
    bench.idle(20_000);
    int session = bench.session();
    bench.reset(bench.peer().resetCauses().iterator().next());
    bench.useSession(session);
    assertThat(bench.nack(new Frame(Type.BEAT, session, new byte[4])).reason())
        .isEqualTo(Nack.WRONG_SESSION);
    Status status = bench.open(Open.USUAL);
    assertThat(status.drives()).isEqualTo(Sets.of());
    bench.idle(100_000);
    assertThat(bench.came(Type.RESULT)).as("results of a step that a reset ended").isEmpty();
    if (bench.peer().offers().contains(Peer.Offer.TRUE_DRIVES)) {
      assertThat(bench.peer().switches().get(bench.peer().switches().size() - 1).drives())
          .isEqualTo(Sets.of());
    }
  }
}
