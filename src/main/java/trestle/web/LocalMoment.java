package trestle.web;

import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.time.zone.ZoneOffsetTransition;
import java.util.List;

/**
 * A local date and time as a moment. A change of summer time leaves some local times out and has
 * others twice: the first are refused, the second asked about, never guessed.
 */
public final class LocalMoment {
  private LocalMoment() {}

  /** The field in which a person says which of two moments a time is. */
  public static String whichField(String name) {
    return name + "-which";
  }

  /**
   * The moment, or null with the reason noted in the form.
   *
   * @param name the field of the time; of {@link #whichField} for the answer
   */
  public static Instant of(Form form, String name, String label, LocalDateTime time, ZoneId zone) {
    List<ZoneOffset> offsets = zone.getRules().getValidOffsets(time);
    if (offsets.size() == 1) {
      return time.toInstant(offsets.get(0));
    }
    if (offsets.isEmpty()) {
      ZoneOffsetTransition change = zone.getRules().getTransition(time);
      form.fail(
          name,
          label
              + " "
              + Shown.time(time.toLocalTime())
              + " was no time on "
              + Shown.date(time.toLocalDate())
              + ": clocks went from "
              + Shown.time(change.getDateTimeBefore().toLocalTime())
              + " to "
              + Shown.time(change.getDateTimeAfter().toLocalTime())
              + ".");
      return null;
    }
    return chosen(form, name, label, time, offsets);
  }

  /** The same; where the time came twice, the field's tag asks which one it is. */
  public static Instant asked(
      Form form, String name, String label, LocalDateTime time, ZoneId zone) {
    List<Option> choices = choices(time, zone);
    if (!choices.isEmpty()) {
      form.ask(name, choices);
    }
    return of(form, name, label, time, zone);
  }

  /** The two moments that a local time may be, as choices; none where it is only one. */
  public static List<Option> choices(LocalDateTime time, ZoneId zone) {
    List<ZoneOffset> offsets = zone.getRules().getValidOffsets(time);
    if (offsets.size() < 2) {
      return List.of();
    }
    return List.of(
        option(offsets.get(0), "the first, before clocks went back"),
        option(offsets.get(1), "the second, after clocks went back"));
  }

  private static Option option(ZoneOffset offset, String words) {
    return new Option(offset.getId(), words, "UTC" + offset.getId().replace('-', '\u2212'));
  }

  private static Instant chosen(
      Form form, String name, String label, LocalDateTime time, List<ZoneOffset> offsets) {
    for (ZoneOffset offset : offsets) {
      if (form.has(whichField(name), offset.getId())) {
        return time.toInstant(offset);
      }
    }
    form.fail(
        whichField(name),
        label
            + " "
            + Shown.time(time.toLocalTime())
            + " came twice on "
            + Shown.date(time.toLocalDate())
            + ": say which.");
    return null;
  }
}
