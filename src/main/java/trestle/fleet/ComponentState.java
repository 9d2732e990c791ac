package trestle.fleet;

/** Where a component is in its life, told from what was filed of it. */
public enum ComponentState {
  FITTED("fitted"),
  IN_STORE("serviceable, in store"),
  UNSERVICEABLE("unserviceable"),
  AWAY("sent out"),
  RETIRED("retired");

  private final String words;

  ComponentState(String words) {
    this.words = words;
  }

  public String words() {
    return words;
  }
}
