package trestle.flights;

import java.util.List;
import java.util.UUID;

/**
 * A flight as pages write it.
 *
 * @param replaced the rows it has replaced, as written, the latest first
 * @param notes what does not follow on, in sentences
 * @param open whether a person has still to say something
 */
public record FlightLine(
    UUID id,
    UUID aircraftId,
    String date,
    String times,
    String from,
    String to,
    String hours,
    String total,
    String landings,
    String meter,
    String commander,
    boolean isVoid,
    boolean disputed,
    boolean open,
    String reason,
    List<String> replaced,
    List<Note> notes) {

  /**
   * @param explained what a person said of it, or ""
   */
  public record Note(String kind, String title, String sentence, String explained, boolean open) {}

  /** One filed row of an entry, the latest first, each fact on its own. */
  public record Row(
      UUID id,
      String title,
      boolean replaced,
      long ledgerSeq,
      String filed,
      String reason,
      List<Fact> facts) {}

  /**
   * @param changed whether it differs from the row before
   */
  public record Fact(String name, String value, boolean changed) {}
}
