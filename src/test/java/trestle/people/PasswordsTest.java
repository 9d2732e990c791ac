package trestle.people;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

/** How passwords are kept. */
class PasswordsTest {

  /** Were it quicker or slower to compare with, the time taken would tell who exists. */
  @Test
  void nobodysHashIsMadeAsEverybodys() {
    assertThat(settingsOf(Passwords.NOBODYS)).isEqualTo(settingsOf(Passwords.hash("a password")));
    assertThat(Passwords.matches("a password", null)).isFalse();
  }

  private static String settingsOf(String hash) {
    return hash.substring(0, hash.indexOf("p=1$") + 4);
  }
}
