package trestle.people;

import java.util.Optional;

/** Something about the installation that its administrator should see; injection finds them. */
public interface InstallationNotice {
  /** One sentence, while there is something to say. */
  Optional<String> sentence();
}
