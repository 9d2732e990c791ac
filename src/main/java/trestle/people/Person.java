package trestle.people;

import com.github.f4b6a3.uuid.UuidCreator;
import jakarta.persistence.Entity;
import jakarta.persistence.Id;
import jakarta.persistence.Table;
import java.time.Instant;
import java.util.Locale;
import java.util.UUID;

@Entity
@Table(name = "person")
class Person {
  @Id UUID id = UuidCreator.getTimeOrderedEpoch();
  String name;
  String signInName;
  String passwordHash;

  /** Raised to end every session this person has, on every node, at once. */
  int generation;

  Instant createdAt;

  protected Person() {}

  Person(String name, String signInName, String passwordHash, Instant createdAt) {
    this.name = name;
    this.signInName = normal(signInName);
    this.passwordHash = passwordHash;
    this.createdAt = createdAt;
  }

  /** Sign-in names are compared without case and outer blanks: phones capitalise. */
  static String normal(String signInName) {
    return signInName.trim().toLowerCase(Locale.ROOT);
  }
}
