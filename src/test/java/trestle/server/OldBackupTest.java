package trestle.server;

import static org.assertj.core.api.Assertions.assertThat;

import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.nio.file.Path;
import java.sql.Connection;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledIfSystemProperty;
import org.junit.jupiter.api.io.TempDir;
import trestle.house.Yard;
import trestle.people.Company;
import trestle.server.backup.BackupWriter;
import trestle.server.backup.Restore;

/**
 * A backup of each earlier release is kept beside the tests, and comes back in this one. To add
 * this release's: {@code mvn test -Dtest=OldBackupTest
 * -Dtrestle.fixture=src/test/resources/backups/…}, then a line here with what it printed.
 */
@QuarkusTest
class OldBackupTest {
  private static final Path BACKUPS = Path.of("src", "test", "resources", "backups");

  /** What its writer said of it: rows, and the root of its one ledger. */
  private record Known(long rows, String root) {}

  private static final Map<String, Known> KEPT =
      Map.of(
          "schema-029.zip",
          new Known(248, "09fec7b98bdfb29928515642dd032f2582f7639a956c0bafe5110f16bc0f3146"));

  @TempDir Path directory;
  @Inject Yard yard;

  @Test
  void everyOlderReleasesBackupComesBack() throws Exception {
    for (Map.Entry<String, Known> kept : KEPT.entrySet()) {
      try (SpareDatabase database = SpareDatabase.empty()) {
        Restore.Report report = database.restore(BACKUPS.resolve(kept.getKey()), false);
        assertThat(report.rows()).as(kept.getKey()).isEqualTo(kept.getValue().rows());
        assertThat(report.ledgers())
            .as(kept.getKey())
            .singleElement()
            .satisfies(it -> assertThat(it.head().root()).isEqualTo(kept.getValue().root()));
        assertThat(database.backUp(directory.resolve(kept.getKey()), null).faults()).isEmpty();
      }
    }
  }

  @Test
  @EnabledIfSystemProperty(named = "trestle.fixture", matches = ".+")
  void writesOneOfThisRelease() throws Exception {
    Company company = yard.founded("heron", "QX-HRN").company();
    Path one = directory.resolve("one.zip");
    try (Connection owner = TestDatabase.asOwner();
        SpareDatabase database = SpareDatabase.empty()) {
      new BackupWriter(owner, "of the tests", new TheClock().instant())
          .write(one, Optional.of(company.name()));
      database.restoreOperator(one, company.name());
      System.out.println(database.backUp(Path.of(System.getProperty("trestle.fixture")), null));
    }
  }
}
