package trestle.people;

import jakarta.enterprise.context.ApplicationScoped;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;

/**
 * The code that proves whoever takes the first steps to be who started the program: it is printed
 * where the program runs, so that nobody else on the network can become administrator.
 */
@ApplicationScoped
public class FirstStepsCode {
  private final String code = Passwords.made();

  public String code() {
    return code;
  }

  boolean matches(String typed) {
    return MessageDigest.isEqual(
        typed.trim().getBytes(StandardCharsets.UTF_8), code.getBytes(StandardCharsets.UTF_8));
  }
}
