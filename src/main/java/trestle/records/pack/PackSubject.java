package trestle.records.pack;

import java.util.UUID;

/** Whose record it is: an aircraft's with all that is fitted to it, or a component's. */
record PackSubject(Kind kind, UUID id) {

  enum Kind {
    AIRCRAFT,
    COMPONENT;

    String word() {
      return name().toLowerCase(java.util.Locale.ROOT);
    }

    static Kind parse(String word) {
      for (Kind kind : values()) {
        if (kind.word().equals(word)) {
          return kind;
        }
      }
      throw new IllegalArgumentException("“" + word + "” is neither an aircraft nor a component");
    }
  }

  static PackSubject aircraft(UUID id) {
    return new PackSubject(Kind.AIRCRAFT, id);
  }

  static PackSubject component(UUID id) {
    return new PackSubject(Kind.COMPONENT, id);
  }

  public boolean isAircraft() {
    return kind == Kind.AIRCRAFT;
  }

  public String path() {
    return (isAircraft() ? "/aircraft/" : "/components/") + id;
  }
}
