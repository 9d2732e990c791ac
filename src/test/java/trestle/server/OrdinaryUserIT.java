package trestle.server;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import com.sun.security.auth.module.UnixSystem;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Root's other self: when root runs the tests, the program is started as the user nobody as well.
 * Run by an ordinary user, every other test of the start is that test already.
 */
class OrdinaryUserIT {
  private static final List<String> AS_NOBODY = PostgresUser.NOBODY.command("env", List.of());

  @TempDir Path parent;

  @BeforeEach
  void onlyRootCanBecomeAnother() {
    boolean root = new UnixSystem().getUid() == 0;
    if (!root) {
      System.out.println("Skipped: not root, so the other tests ran as an ordinary user already.");
    }
    assumeTrue(root, "not root: the other tests ran as an ordinary user already");
  }

  @Test
  void startsAsAnOrdinaryUserAndAgainAfterBeingKilled() throws IOException {
    Path directory = Files.createDirectory(parent.resolve("data"));
    PostgresUser.NOBODY.give(directory);
    Path application = readableByAll(parent.resolve("application"));
    AppProcess.on(directory).through(AS_NOBODY, application).start().ready().kill();
    try (AppProcess app = AppProcess.on(directory).through(AS_NOBODY, application).start()) {
      assertThat(app.statusOf("/q/health/ready")).isEqualTo(200);
      assertThat(Files.getOwner(directory.resolve("postgres")).getName()).isEqualTo("nobody");
    }
  }

  @Test
  void aDirectoryThatThisUserMayNotWriteIsNamed() throws IOException {
    Path application = readableByAll(parent.resolve("application"));
    Path directory = Files.createDirectory(parent.resolve("roots"));
    try (AppProcess app = AppProcess.on(directory).through(AS_NOBODY, application).start()) {
      assertThat(app.exitCode()).isEqualTo(1);
      assertThat(app.output())
          .startsWith("The data directory " + directory + " can't be written by user nobody")
          .endsWith("Set TRESTLE_DATA_DIR to a directory that this user owns.\n");
    }
  }

  @Test
  void rootWithoutUserNamespacesLetsNobodyRunPostgres() throws Exception {
    Files.setPosixFilePermissions(parent, PosixFilePermissions.fromString("rwxr-xr-x"));
    DataDirectory directory = DataDirectory.open(parent.resolve("data"));
    BuiltInPostgres server =
        BuiltInPostgres.start(directory, directory.path(), PostgresUser.NOBODY);
    try {
      DatabaseUsers.prepare(server.port(), directory.secret("postgres-password"), "one", "two");
      DataOnDisk data = new DataOnDisk(directory.path());
      assertThat(data.ask("SHOW fsync")).containsExactly("on");
      assertThat(Files.getOwner(directory.postgres()).getName()).isEqualTo("nobody");
    } finally {
      server.stop();
    }
  }

  /** A copy where nobody can read it: a build may lie in a home directory closed to others. */
  private Path readableByAll(Path copy) throws IOException {
    Files.setPosixFilePermissions(parent, PosixFilePermissions.fromString("rwxr-xr-x"));
    Path packaged = AppProcess.packaged();
    try (Stream<Path> paths = Files.walk(packaged)) {
      for (Path path : paths.toList()) {
        Path target = copy.resolve(packaged.relativize(path).toString());
        Files.copy(path, target, StandardCopyOption.REPLACE_EXISTING);
        boolean directory = Files.isDirectory(path);
        Files.setPosixFilePermissions(
            target, PosixFilePermissions.fromString(directory ? "rwxr-xr-x" : "rw-r--r--"));
      }
    }
    return copy;
  }
}
