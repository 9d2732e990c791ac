package trestle.server;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.io.PrintStream;
import java.util.List;
import java.util.Optional;
import trestle.people.SignIns;

/**
 * {@code password NAME}: another password for somebody who has forgotten theirs. Only who may start
 * the program may do so: a member signs certificates with it, so no other member may set it.
 */
@ApplicationScoped
class PasswordCommand implements Command {
  @Inject SignIns signIns;

  @Override
  public String name() {
    return "password";
  }

  @Override
  public int run(List<String> arguments, PrintStream out) {
    if (arguments.size() != 1) {
      out.println("Say whose: password, then one sign-in name.");
      return StartRefused.USAGE;
    }
    Optional<String> password = signIns.anotherPassword(arguments.get(0));
    if (password.isEmpty()) {
      out.printf("Nobody signs in as \"%s\".%n", arguments.get(0));
      return StartRefused.USAGE;
    }
    out.printf("%s signs in with %s from now on.%n", arguments.get(0), password.get());
    out.println("Hand it over by a way you trust; they can change it on their own page.");
    return 0;
  }
}
