package trestle.programme;

import java.time.LocalDate;
import java.util.List;
import java.util.function.Function;
import trestle.reckoning.Amount;
import trestle.reckoning.Calendar;
import trestle.reckoning.Counter;
import trestle.reckoning.Distance;
import trestle.reckoning.Hours;
import trestle.reckoning.Interval;
import trestle.reckoning.Limit;
import trestle.reckoning.Scale;
import trestle.web.Form;

/** One limit as a person fills it in. */
final class LimitRow {
  private static final String USE = "use";
  private static final String CALENDAR = "calendar";
  private static final String TOTAL = "total";
  private static final String DATE = "date";

  static final List<String> BY = List.of(USE, CALENDAR, TOTAL, DATE);

  private final Form form;
  private final String prefix;
  private final String label;

  LimitRow(Form form, String group, int row) {
    this.form = form;
    this.prefix = group + "-" + row + "-";
    this.label = (group.equals("initial") ? "First limit " : "Limit ") + row + ": ";
  }

  /** The limit, or null where the row is empty or wrong. */
  Limit read() {
    String by = form.optional(prefix + "by", label + "kind").choice(BY);
    if (by == null) {
      refuseLeftovers();
      return null;
    }
    try {
      return switch (by) {
        case USE -> every(counter());
        case CALENDAR -> every(Calendar.DAYS);
        case TOTAL -> fixed(counter());
        default -> fixed(Calendar.DAYS);
      };
    } catch (IllegalArgumentException e) {
      form.fail(prefix + "every", label + e.getMessage() + ".");
      return null;
    }
  }

  void fill(Limit.Measured limit) {
    boolean calendar = limit.scale() == Calendar.DAYS;
    put("counter", calendar ? null : ((Counter) limit.scale()).name());
    put("soon", text(limit.soon()));
    put("tolerance", text(limit.tolerance()));
    if (limit instanceof Limit.Fixed fixed) {
      put("by", calendar ? DATE : TOTAL);
      put("every", point(fixed));
      return;
    }
    Limit.Every every = (Limit.Every) limit;
    put("by", calendar ? CALENDAR : USE);
    put("every", text(every.every()));
    put("ends", every.ends().word());
    put("from", every.from());
    put("late", every.late().word());
    put("window", text(every.window()));
  }

  private Limit every(Scale scale) {
    Distance every = distance(scale, "every", "every", true);
    Distance soon = distance(scale, "soon", "soon from", false);
    Distance tolerance = distance(scale, "tolerance", "tolerance", false);
    Distance window = distance(scale, "window", "window", false);
    String from = form.value(prefix + "from").isEmpty() ? Limit.LAST_DONE : from();
    boolean monthEnd = form.value(prefix + "ends").equals(Limit.Ends.MONTH_END.word());
    boolean keep = form.value(prefix + "late").equals(Limit.Late.KEEP_SCHEDULE.word());
    if (every == null || scale == null || from == null) {
      return null;
    }
    if (every.isZero()) {
      form.fail(prefix + "every", label + "every must be more than nothing.");
      return null;
    }
    if (monthEnd && !(every instanceof Interval period && period.isWholeMonths())) {
      form.fail(prefix + "ends", label + "the month’s end goes only with whole months or years.");
      return null;
    }
    if (window != null && !window.isSmallerThan(every)) {
      form.fail(prefix + "window", label + "window must be smaller than the interval.");
      return null;
    }
    if (!from.equals(Limit.LAST_DONE) && (keep || window != null)) {
      form.fail(
          prefix + (window == null ? "late" : "window"),
          label + "keeping the schedule and windows go only with counting from last done.");
      return null;
    }
    return new Limit.Every(
        scale,
        every,
        monthEnd ? Limit.Ends.MONTH_END : Limit.Ends.ANNIVERSARY,
        from,
        soon,
        tolerance,
        keep ? Limit.Late.KEEP_SCHEDULE : Limit.Late.RESTART,
        window);
  }

  private Limit fixed(Scale scale) {
    Distance soon = distance(scale, "soon", "soon from", false);
    Distance tolerance = distance(scale, "tolerance", "tolerance", false);
    if (scale == null) {
      return null;
    }
    if (scale instanceof Counter counter) {
      Amount at = read("every", "total", true, typed -> amount(counter, typed));
      return at == null ? null : new Limit.Fixed(counter, at.units(), soon, tolerance);
    }
    LocalDate on = form.required(prefix + "every", label + "date").date();
    return on == null ? null : new Limit.Fixed(scale, on.toEpochDay(), soon, tolerance);
  }

  private Counter counter() {
    if (form.value(prefix + "counter").isBlank()) {
      return Counter.HOURS;
    }
    return read("counter", "counter", true, typed -> Counter.parse(typed.replace(' ', '-')));
  }

  private String from() {
    return form.optional(prefix + "from", label + "counted from").choice(RequirementForm.ORIGINS);
  }

  private Distance distance(Scale scale, String name, String words, boolean required) {
    if (scale == null) {
      return null;
    }
    return read(
        name,
        words,
        required,
        typed -> scale instanceof Counter counter ? amount(counter, typed) : Period.parse(typed));
  }

  private static Amount amount(Counter counter, String typed) {
    return counter.inHours()
        ? Amount.of(Hours.parseTyped(typed))
        : counter.amount(typed.replaceAll("(?<=\\d)[ ,](?=\\d{3}\\b)", ""));
  }

  private <T> T read(String name, String words, boolean required, Function<String, T> reader) {
    var field =
        required
            ? form.required(prefix + name, label + words)
            : form.optional(prefix + name, label + words);
    return field.read(reader);
  }

  /** An amount typed into a row whose kind was not chosen must not be lost without a word. */
  private void refuseLeftovers() {
    if (!form.value(prefix + "every").isBlank()) {
      form.fail(prefix + "by", label + "choose what it is counted by, or empty the row.");
    }
  }

  private void put(String name, String value) {
    form.with(prefix + name, value);
  }

  private static String point(Limit.Fixed fixed) {
    return fixed.scale() instanceof Counter counter
        ? counter.unit().show(fixed.point())
        : LocalDate.ofEpochDay(fixed.point()).toString();
  }

  private static String text(Distance distance) {
    if (distance == null) {
      return null;
    }
    return distance instanceof Interval period ? Period.text(period) : distance.toString();
  }
}
