package trestle.server;

import static org.assertj.core.api.Assertions.assertThatCode;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import org.junit.jupiter.api.Test;

/** What a server of any version might answer; real servers answer in OutsideDatabaseIT. */
class StartUpChecksTest {

  private static DatabaseFacts facts(int version, String synchronousCommit) {
    return new DatabaseFacts(
        version, "on", "on", synchronousCommit, "app", List.of(), List.of(), List.of(), List.of());
  }

  @Test
  void version15IsTheOldest() {
    assertThatCode(() -> StartUpChecks.refuseUnlessSound(facts(150_000, "on"), true))
        .doesNotThrowAnyException();
    assertThatThrownBy(() -> StartUpChecks.refuseUnlessSound(facts(140_022, "on"), true))
        .isInstanceOf(StartRefused.class)
        .hasMessageContaining("It is PostgreSQL 14; version 15 or newer is needed.");
  }

  @Test
  void waitingForAReplicaIsWaitingForTheDiskToo() {
    for (String value : List.of("local", "remote_write", "remote_apply")) {
      assertThatCode(() -> StartUpChecks.refuseUnlessSound(facts(170_000, value), true))
          .doesNotThrowAnyException();
    }
  }

  @Test
  void manyTablesAreNotAllNamed() {
    DatabaseFacts open =
        new DatabaseFacts(
            170_000,
            "on",
            "on",
            "on",
            "app",
            List.of(),
            List.of(),
            List.of(),
            List.of("a", "b", "c", "d", "e"));
    assertThatThrownBy(() -> StartUpChecks.refuseUnlessSound(open, true))
        .hasMessageContaining("not forced on a, b, c and 2 more:");
  }
}
