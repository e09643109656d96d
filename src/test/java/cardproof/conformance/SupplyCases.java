package cardproof.conformance;

import static org.assertj.core.api.Assertions.assertThat;

/** Sections 9.3 and 9.4: supply switch, current and rail. */
final class SupplyCases {
  private SupplyCases() {}

  private static Case.Body with(Capability capability, Case.Body body) {
    return bench -> {
      Case.needs(bench, capability);
      body.run(bench);
    };
  }

  private static Case.Body switched(Case.Body body) {
    return with(Capability.SUPPLY, body);
  }

  /** Supply on, drives live. */
  private static Case.Body powered(Case.Body body) {
    return switched(
        bench -> {
          bench.open(Open.USUAL);
          supply(bench, 1);
          bench.arm();
          body.run(bench);
        });
  }

  static Section section() {
    return new Section("9.3, 9.4 supply and sense")
        .add(
            "SUPPLY switches, and SUPPLY_R says what it is now",
            switched(
                bench -> {
                  bench.open(Open.USUAL);
                  assertThat(supply(bench, 1)).isEqualTo(1);
                  assertThat(supply(bench, 1)).isEqualTo(1);
                  assertThat(supply(bench, 0)).isZero();
                  assertThat(supply(bench, 200)).isNotZero();
                }))
        .add(
            "switching releases the drives",
            powered(
                bench -> {
                  bench.run(Step.of(0, 0, 1));
                  assertThat(bench.now().drives()).isEqualTo(Sets.of(0, 1));
                  supply(bench, 0);
                  Status status = bench.now();
                  assertThat(status.drives()).isEqualTo(Sets.of());
                  assertThat(status.state()).isEqualTo(Status.READY);
                }))
        .add(
            "switching to what it is changes nothing",
            powered(
                bench -> {
                  bench.run(Step.of(0, 0));
                  supply(bench, 1);
                  assertThat(bench.now().drives()).isEqualTo(Sets.of(0));
                }))
        .add(
            "SUPPLY while a step is queued or runs is refused",
            switched(
                bench -> {
                  bench.open(Open.USUAL);
                  supply(bench, 1);
                  bench.give(Step.of(0, 0).flags(Step.AUDIT).times(0, 50_000, 4000));
                  assertThat(refused(bench)).isEqualTo(Nack.WRONG_STATE);
                  bench.arm();
                  bench.idle(10_000);
                  assertThat(refused(bench)).isEqualTo(Nack.WRONG_STATE);
                  bench.result(0, 200_000);
                  assertThat(supply(bench, 0)).isZero();
                }))
        .add(
            "SUPPLY in SAFE is refused, and STOP leaves the switch as it is",
            switched(
                bench -> {
                  bench.open(Open.USUAL);
                  supply(bench, 1);
                  bench.stop();
                  assertThat(refused(bench)).isEqualTo(Nack.WRONG_STATE);
                  bench.live(Open.USUAL);
                  bench.run(Step.of(0, 0));
                  assertThat(supply(bench, 1)).isEqualTo(1);
                  assertThat(bench.now().drives())
                      .as("it was on already, so nothing was released")
                      .isEqualTo(Sets.of(0));
                }))
        .add(
            "SUPPLY in HELD is taken",
            powered(
                bench -> {
                  bench.run(StateCases.missing(0, 0));
                  assertThat(supply(bench, 0)).isZero();
                  Status status = bench.now();
                  assertThat(status.state()).isEqualTo(Status.HELD);
                  assertThat(status.drives()).isEqualTo(Sets.of());
                }))
        .add(
            "after a reset the supply is off",
            switched(
                bench -> {
                  Case.needs(bench, Peer.Offer.RESET);
                  bench.open(Open.USUAL);
                  supply(bench, 1);
                  bench.reset(bench.peer().resetCauses().iterator().next());
                  wasOff(bench);
                }))
        .add(
            "a supply trip drops everything, ends the step and turns the supply off",
            powered(
                bench -> {
                  Case.needs(bench, Peer.Offer.SUPPLY_TRIP);
                  bench.peer().tripSupply(bench.peer().nowNs() + 20_000_000);
                  bench.give(Step.of(0, 0).flags(Step.AUDIT).times(0, 300_000, 4000));
                  bench.give(Step.of(1, 1));
                  Result result = bench.result(0, Bench.ANSWER_US);
                  assertThat(result.has(Result.TRIPPED)).isTrue();
                  assertThat(result.durationUs()).isBetween(5000L, 30_000L);
                  tripped(bench);
                  wasOff(bench);
                }))
        .add(
            "a supply trip between steps trips too",
            powered(
                bench -> {
                  Case.needs(bench, Peer.Offer.SUPPLY_TRIP);
                  bench.peer().tripSupply(bench.peer().nowNs() + 30_000_000);
                  bench.run(Step.of(0, 0));
                  tripped(bench);
                }))
        .add(
            "what the supply's switch released is not held any more",
            switched(
                bench -> {
                  bench.open(Open.USUAL.hold(60));
                  supply(bench, 1);
                  bench.arm();
                  bench.run(Step.of(0, 0));
                  supply(bench, 0);
                  bench.pass(200_000);
                  assertThat(bench.now().state()).isEqualTo(Status.READY);
                }))
        .add(
            "SUPPLY of a wrong length is refused",
            switched(
                bench -> {
                  bench.open(Open.USUAL);
                  assertThat(bench.nack(Frame.of(Type.SUPPLY, bench.session())).reason())
                      .isEqualTo(Nack.BAD_LENGTH);
                }))
        .add(
            "READ_SENSE is answered in any state of a session",
            with(
                Capability.SENSE,
                bench -> {
                  bench.open(Open.USUAL);
                  sense(bench);
                  bench.arm();
                  bench.give(Step.of(0, 0).flags(Step.AUDIT).times(0, 50_000, 4000));
                  bench.idle(10_000);
                  sense(bench);
                  bench.result(0, 200_000);
                  bench.stop();
                  sense(bench);
                }))
        .add(
            "results of 1.1 end with rail and current",
            with(
                Capability.SENSE,
                bench -> {
                  bench.live(Open.USUAL);
                  Result.Sense sense = bench.run(Step.of(0, 0)).sense().orElseThrow();
                  assertThat(sense.lowestMv()).isLessThanOrEqualTo(sense.railMv());
                  assertThat(sense.highestMa()).isGreaterThanOrEqualTo(sense.currentMa());
                }))
        .add(
            "every part of a result has them",
            StepRunCases.everyWatch(),
            with(
                Capability.SENSE,
                bench -> {
                  bench.live(Open.USUAL);
                  bench.give(Step.of(0, 0).flags(Step.AUDIT).times(0, 50_000, 4000));
                  for (Result part : bench.parts(0, 200_000)) {
                    assertThat(part.sense()).isPresent();
                  }
                }))
        .add(
            "results of a session of 1.0 end with their entries",
            bench -> {
              bench.open(Open.USUAL, 0);
              bench.arm();
              assertThat(bench.run(Step.of(0, 0)).sense()).isEmpty();
              bench.hello(1);
              bench.beat(1);
              assertThat(bench.run(Step.of(1)).sense())
                  .as("a HELLO that comes later changes nothing")
                  .isEmpty();
            });
  }

  private static int supply(Bench bench, int on) {
    bench.send(Type.SUPPLY, new byte[] {(byte) on});
    byte[] body = bench.await(Type.SUPPLY_R).body();
    assertThat(body).hasSize(1);
    return body[0];
  }

  /** Another session: switching it off changes nothing, the drives included. */
  private static void wasOff(Bench bench) {
    bench.live(Open.USUAL);
    bench.run(Step.of(0, 0));
    assertThat(supply(bench, 0)).isZero();
    assertThat(bench.now().drives())
        .as("it was off already, so nothing was released")
        .isEqualTo(Sets.of(0));
  }

  private static void tripped(Bench bench) {
    Status status =
        bench.awaitStatus(50_000, each -> each.state() == Status.TRIPPED, "STATUS of a trip");
    assertThat(status.cause()).isEqualTo(Status.BY_SUPPLY);
    assertThat(status.chattered()).isEqualTo(255);
    assertThat(status.drives()).isEqualTo(Sets.of());
  }

  private static int refused(Bench bench) {
    return bench.nack(new Frame(Type.SUPPLY, bench.session(), new byte[] {1})).reason();
  }

  private static void sense(Bench bench) {
    bench.send(Frame.of(Type.READ_SENSE, bench.session()));
    assertThat(bench.await(Type.SENSE).body()).hasSize(4);
  }
}
