package trestle.people;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.util.Optional;

/**
 * The code that proves whoever takes the first steps to be who started the program: it is printed
 * where the program runs, so that nobody else on the network can become administrator.
 */
@ApplicationScoped
public class FirstStepsCode {
  @Inject Operators operators;

  private final String code = Passwords.made();

  /** The code, while the installation has no administrator. */
  public Optional<String> whileNeeded() {
    return operators.hasAdministrator(Anyone.VIEWER) ? Optional.empty() : Optional.of(code);
  }

  boolean matches(String typed) {
    return MessageDigest.isEqual(
        typed.trim().getBytes(StandardCharsets.UTF_8), code.getBytes(StandardCharsets.UTF_8));
  }
}
