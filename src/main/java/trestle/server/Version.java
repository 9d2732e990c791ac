package trestle.server;

import java.util.Optional;

/** The program's version, as the build wrote it into the jar. */
final class Version {
  static String current() {
    return Optional.ofNullable(Version.class.getPackage().getImplementationVersion())
        .orElse("(not packaged)");
  }

  private Version() {}
}
