package trestle.people;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

/** How passwords are kept. */
class PasswordsTest {

  /** Were it quicker or slower to compare with, the time taken would tell who exists. */
  @Test
  void nobodysHashIsMadeAsEverybodys() {
    assertThat(settingsOf(Passwords.NOBODYS))
        .isEqualTo(settingsOf(Passwords.hash("a password", Passwords.Ways.ARGON2ID)))
        .isEqualTo("$argon2id$v=19$m=19456,t=2,p=1$");
    assertThat(Passwords.matches("a password", null)).isFalse();
  }

  private static String settingsOf(String hash) {
    return hash.substring(0, hash.indexOf("p=1$") + 4);
  }
}
