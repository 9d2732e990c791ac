package trestle.server;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import org.eclipse.microprofile.config.inject.ConfigProperty;

/** What this installation is: on which database, with what beside it on the disk. */
@ApplicationScoped
public class Installation {
  @Inject
  @ConfigProperty(name = "trestle.built-in", defaultValue = "false")
  boolean builtIn;

  @Inject
  @ConfigProperty(name = "trestle.data-dir", defaultValue = DatabaseChoice.DEFAULT_DIRECTORY)
  Path dataDirectory;

  @Inject
  @ConfigProperty(name = "trestle.demo")
  Optional<Boolean> demo;

  /** True on the PostgreSQL that came with the program. */
  public boolean builtIn() {
    return builtIn;
  }

  /** Whether an empty database gets the demo operator: TRESTLE_DEMO, or else when built in. */
  public boolean wantsDemo() {
    return demo.orElse(builtIn);
  }

  public Path dataDirectory() {
    return dataDirectory.toAbsolutePath().normalize();
  }

  /** What a file in the data directory says, if there is one. */
  public Optional<String> kept(String fileName) {
    Path file = dataDirectory().resolve(fileName);
    try {
      return Files.exists(file) ? Optional.of(Files.readString(file)) : Optional.empty();
    } catch (IOException e) {
      throw new UncheckedIOException("can't read " + file, e);
    }
  }

  /** Writes a file that only this user may read into the data directory; answers where it is. */
  public Path keepPrivately(String fileName, String content) {
    Path file = dataDirectory().resolve(fileName);
    try {
      if (!Files.exists(dataDirectory())) {
        PrivateFiles.directory(dataDirectory());
      }
      PrivateFiles.write(file, content);
      return file;
    } catch (IOException e) {
      throw new UncheckedIOException("can't write " + file, e);
    }
  }
}
