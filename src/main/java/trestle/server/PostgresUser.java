package trestle.server;

import com.sun.security.auth.module.UnixSystem;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;

/** As whom PostgreSQL's programs run: they refuse to be root, so that root must become another. */
enum PostgresUser {
  /** The user who started us. */
  SELF,
  /** Root, seen from a user namespace without a root: owns the same files. */
  OWN_NAMESPACE("unshare", "-U"),
  /** Where user namespaces are forbidden, as in many containers: the user nobody. */
  NOBODY("setpriv", "--reuid=65534", "--regid=65534", "--clear-groups");

  private static final int NOBODY_ID = 65534;

  private final List<String> prefix;

  PostgresUser(String... prefix) {
    this.prefix = List.of(prefix);
  }

  /** The first that works here. */
  static PostgresUser here() {
    if (new UnixSystem().getUid() != 0) {
      return SELF;
    }
    for (PostgresUser user : List.of(OWN_NAMESPACE, NOBODY)) {
      if (user.works()) {
        return user;
      }
    }
    throw new StartRefused(
        "PostgreSQL does not run as root, and neither unshare nor setpriv work here. Start as an ordinary user, or set QUARKUS_DATASOURCE_JDBC_URL to use an outside database.");
  }

  private boolean works() {
    try {
      // A user without a name is not enough: initdb asks for it.
      Process id =
          new ProcessBuilder(command("id", List.of("-un")))
              .redirectErrorStream(true)
              .redirectOutput(ProcessBuilder.Redirect.DISCARD)
              .start();
      return id.waitFor(10, TimeUnit.SECONDS) && id.exitValue() == 0;
    } catch (IOException e) {
      return false;
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      return false;
    }
  }

  List<String> command(String program, List<String> arguments) {
    List<String> command = new ArrayList<>(prefix);
    command.add(program);
    command.addAll(arguments);
    return command;
  }

  /** Lets this user reach what lies in the directory by name, but not list it. */
  void letThrough(Path directory) throws IOException {
    if (this == NOBODY) {
      Files.setPosixFilePermissions(directory, PosixFilePermissions.fromString("rwx--x--x"));
    }
  }

  void give(Path path) throws IOException {
    if (this == NOBODY) {
      Files.setAttribute(path, "unix:uid", NOBODY_ID);
      Files.setAttribute(path, "unix:gid", NOBODY_ID);
    }
  }
}
