package trestle.web;

/** The words of {@link Role} as access annotations need them. */
public final class Allow {
  public static final String OWNER = "owner";
  public static final String CONTROLLER = "controller";
  public static final String PILOT = "pilot";
  public static final String ENGINEER = "engineer";
  public static final String AUDITOR = "auditor";

  /** Not a role of an operator: looks after the installation, its operators and its people. */
  public static final String ADMINISTRATOR = "administrator";

  private Allow() {}
}
