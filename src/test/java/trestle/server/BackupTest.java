package trestle.server;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.sql.Connection;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.stream.Stream;
import org.assertj.core.api.InstanceOfAssertFactories;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import trestle.house.Yard;
import trestle.people.Company;
import trestle.server.backup.BackupFile;
import trestle.server.backup.BackupRefused;
import trestle.server.backup.BackupWriter;
import trestle.server.backup.Restore;

/** Two operators with a record of every kind, kept and taken back: one by one, and as a whole. */
@QuarkusTest
class BackupTest {
  @TempDir Path directory;
  @Inject Yard yard;

  @Test
  void whatWasKeptComesBackWithEveryRowAndTheSameRoots() throws Exception {
    Company first = yard.founded("keep-heron", "QX-KHN").company();
    UUID heron = first.operatorId();
    UUID plover = yard.founded("keep-plover", "QX-KPV").company().operatorId();
    Path ofHeron = directory.resolve("heron.zip");
    BackupWriter.Written written = backUp(ofHeron, first.name());
    assertThat(written.faults()).isEmpty();
    assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(ofHeron)))
        .isEqualTo("rw-------");
    Path ofPlover = directory.resolve("plover.zip");
    backUp(ofPlover, plover.toString());

    Path whole = directory.resolve("whole.zip");
    try (SpareDatabase one = SpareDatabase.empty();
        SpareDatabase second = SpareDatabase.empty();
        Connection origin = TestDatabase.asSuperuser()) {
      Restore.Report report = one.restoreOperator(ofHeron, first.name());
      assertThat(report.rows()).isEqualTo(written.rows());
      assertThat(report.ledgers().get(0).head().root()).isEqualTo(written.ledgers().get(0).root());
      one.restoreOperator(ofPlover, plover.toString());
      try (Connection restored = one.asSuperuser()) {
        for (UUID operator : List.of(heron, plover)) {
          assertThat(SpareDatabase.contents(restored, operator))
              .isEqualTo(SpareDatabase.contents(origin, operator));
        }
        assertThat(SpareDatabase.shape(restored)).isEqualTo(SpareDatabase.shape(origin));
        refusesWhatIsThere(one, first.name(), ofHeron);

        one.backUp(whole, null);
        leaveAnInterruptedRestore(second);
        second.restore(whole, false);
        try (Connection again = second.asSuperuser()) {
          assertThat(SpareDatabase.contents(again, null))
              .isEqualTo(SpareDatabase.contents(restored, null));
          assertThat(SpareDatabase.shape(again)).isEqualTo(SpareDatabase.shape(origin));
        }
      }
      replacesOnlyWhenTold(second, whole);
      refusesTablesOfAnotherSchema(ofHeron, first.name());
      oneOfAWholeBackup(whole, first);
    }
  }

  /** Its own people are not there yet; the sign-in name of one belongs to somebody else. */
  private void oneOfAWholeBackup(Path whole, Company heron) throws Exception {
    try (SpareDatabase third = SpareDatabase.empty()) {
      third.migrate(null);
      try (Connection owner = third.asSuperuser()) {
        SpareDatabase.execute(
            owner,
            "insert into person (id, name, sign_in_name, created_at) values"
                + " (gen_random_uuid(), 'P. Else', 'pilot@%s', now())".formatted(heron.name()));
        Restore.Report report = third.restoreOperator(whole, heron.name());
        assertThat(report.notes())
            .singleElement()
            .asString()
            .contains("pilot@" + heron.name() + "+");
        assertThat(SpareDatabase.list(owner, "select id from operator"))
            .containsExactly(heron.operatorId().toString());
        assertThat(
                SpareDatabase.list(
                    owner, "select sign_in_name from person where sign_in_name like '%plover%'"))
            .as("people of the other operator")
            .isEmpty();
      }
    }
  }

  private static void leaveAnInterruptedRestore(SpareDatabase database) throws Exception {
    try (Connection connection = database.asOwner()) {
      SpareDatabase.execute(
          connection,
          "create schema trestle_restoring; create table trestle_restoring.person (half int)");
    }
  }

  /** A whole installation takes the place of any schema, one operator only joins its own. */
  private static void refusesTablesOfAnotherSchema(Path ofHeron, String heron) throws Exception {
    try (SpareDatabase older = SpareDatabase.empty()) {
      older.migrate("027");
      assertThatThrownBy(() -> older.restoreOperator(ofHeron, heron))
          .isInstanceOf(BackupRefused.class)
          .hasMessageStartingWith("The tables here are of schema 027, and this Trestle's are of");
      try (Connection connection = older.asSuperuser()) {
        assertThat(SpareDatabase.list(connection, "select 1 from operator")).isEmpty();
        assertThat(
                SpareDatabase.list(
                    connection, "select 1 from pg_namespace where nspname = 'trestle_restoring'"))
            .isEmpty();
      }
    }
  }

  private static void refusesWhatIsThere(SpareDatabase full, String heron, Path ofHeron)
      throws Exception {
    Map<String, String> before;
    try (Connection connection = full.asSuperuser()) {
      before = SpareDatabase.contents(connection, null);
    }
    assertThatThrownBy(() -> full.restoreOperator(ofHeron, heron))
        .isInstanceOf(BackupRefused.class)
        .hasMessageContaining("The operator is here already");
    assertThatThrownBy(() -> full.restoreOperator(ofHeron, "plover"))
        .hasMessageContaining("It holds no operator \"plover\"");
    assertThatThrownBy(() -> full.restore(ofHeron, true))
        .hasMessageContaining("It holds one operator only");
    try (Connection connection = full.asSuperuser()) {
      assertThat(SpareDatabase.contents(connection, null)).isEqualTo(before);
    }
  }

  private static void replacesOnlyWhenTold(SpareDatabase full, Path whole) throws Exception {
    try (Connection connection = full.asSuperuser()) {
      SpareDatabase.execute(
          connection,
          "insert into person (id, name, sign_in_name, created_at)"
              + " values (gen_random_uuid(), 'A. Late', 'late', now())");
      Map<String, String> before = SpareDatabase.contents(connection, null);
      assertThatThrownBy(() -> full.restore(whole, false))
          .isInstanceOf(BackupRefused.class)
          .hasMessageContaining("There are records here already");
      assertThat(SpareDatabase.contents(connection, null)).isEqualTo(before);
      full.restore(whole, true);
      assertThat(SpareDatabase.list(connection, "select 1 from person where name = 'A. Late'"))
          .isEmpty();
    }
  }

  @Test
  void aBackupIsNeverWrittenOverAnother() throws Exception {
    Path file = Files.writeString(directory.resolve("kept.zip"), "an older one");
    assertThatThrownBy(() -> backUp(file, null))
        .isInstanceOf(BackupRefused.class)
        .hasMessageContaining("exists already");
    assertThat(file).hasContent("an older one");
    assertThatThrownBy(() -> backUp(directory.resolve("other.zip"), "nobody's"))
        .hasMessage("There is no operator \"nobody's\" here.");
    assertThat(directory).isDirectoryNotContaining("glob:**other*");
  }

  @Test
  void ofTwoThatWriteToOneNameOneIsRefusedAndTakesNothingFromTheOther() throws Exception {
    Path file = directory.resolve("both.zip");
    Path left = Files.writeString(directory.resolve("both.zip.part"), "of another run");
    String company = yard.founded("keep-both", "QX-KBT").company().name();
    ExecutorService two = Executors.newFixedThreadPool(2);
    List<Future<BackupWriter.Written>> runs =
        two.invokeAll(Collections.nCopies(2, () -> backUp(file, company)));
    two.shutdown();
    List<Throwable> refused = new ArrayList<>();
    for (Future<BackupWriter.Written> run : runs) {
      try {
        run.get();
      } catch (ExecutionException e) {
        refused.add(e.getCause());
      }
    }
    assertThat(refused)
        .singleElement()
        .asInstanceOf(InstanceOfAssertFactories.THROWABLE)
        .isInstanceOf(BackupRefused.class)
        .hasMessage(file + " exists already; it is not written over.");
    assertThat(left).hasContent("of another run");
    try (Stream<Path> files = Files.list(directory)) {
      assertThat(files).containsExactlyInAnyOrder(file, left);
    }
    BackupFile.open(file).close();
    assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(file)))
        .isEqualTo("rw-------");
  }

  private static BackupWriter.Written backUp(Path file, String operator) throws Exception {
    try (Connection connection = TestDatabase.asOwner()) {
      return new BackupWriter(connection, "of the tests", new TheClock().instant())
          .write(file, Optional.ofNullable(operator));
    }
  }
}
