package trestle.workshop;

import java.util.Locale;

/** Where a work order stands; derived from its records, never stored. */
public enum OrderState {
  DRAFT("Draft"),
  ISSUED("Issued"),
  IN_WORK("In work"),
  AWAITING_RELEASE("Awaiting release"),
  RELEASED("Released"),
  NOT_AIRWORTHY("Closed, not airworthy"),
  CANCELLED("Cancelled");

  private final String label;

  OrderState(String label) {
    this.label = label;
  }

  public String label() {
    return label;
  }

  public String word() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /** Whether nothing about its work changes any more. */
  public boolean isOver() {
    return this == RELEASED || this == NOT_AIRWORTHY || this == CANCELLED;
  }

  /** Whether work has begun that nobody has released. */
  public boolean holds() {
    return this == IN_WORK || this == AWAITING_RELEASE;
  }
}
