package trestle.web;

/** One figure of the strip of totals: "Time in service", "6,482.6 h", and a note or "". */
public record Total(String name, String value, String note) {

  public Total(String name, String value) {
    this(name, value, "");
  }
}
