package trestle.apron;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.stream.IntStream;
import trestle.reckoning.Hours;
import trestle.web.Form;
import trestle.web.Option;

/**
 * A trip as a person types it: some lines, of which only the hours must be given. A line's date is
 * that of the line before where it is left out, its landings one.
 */
public final class TripForm {
  static final int MOST_LEGS = 20;

  /** The button that asks for another line, and for no answer yet. */
  static final String MORE = "more";

  private static final int AT_FIRST = 2;
  private static final Hours LONGEST = new Hours(1_000L * 3600);

  private final Form form;
  private final LocalDate today;
  private final List<Option> kinds;

  TripForm(Form form, LocalDate today, List<Option> kinds) {
    this.form = form;
    this.today = today;
    this.kinds = kinds;
  }

  /** An empty page, to be filled in. */
  static Form blank(LocalDate today) {
    return Form.blank().with("on-1", today).with("landings-1", "1");
  }

  public Form form() {
    return form;
  }

  public List<Option> kinds() {
    return kinds;
  }

  /** The numbers of the lines on the page. */
  public List<Integer> lines() {
    return IntStream.rangeClosed(1, count()).boxed().toList();
  }

  public int more() {
    return Math.min(MOST_LEGS, count() + 1);
  }

  public boolean mayHaveMore() {
    return count() < MOST_LEGS;
  }

  /** The trip, or null with what is wrong noted in the form. */
  Trip read() {
    List<String> chosen =
        form.optional("kind", "What kind of flight")
            .choices(kinds.stream().map(Option::value).toList());
    List<Leg> legs = new ArrayList<>();
    LocalDate last = today;
    for (int line : lines()) {
      Leg leg = leg(line, legs.size() + 1, last);
      if (leg != null) {
        legs.add(leg);
        last = leg.on();
      }
    }
    if (form.isOk() && legs.isEmpty()) {
      form.fail("hours-1", "Hours of leg 1 must not be blank");
    }
    return form.isOk() ? new Trip(legs, new HashSet<>(chosen)) : null;
  }

  private Leg leg(int line, int number, LocalDate last) {
    boolean blank =
        List.of("on-", "hours-", "landings-", "cycles-").stream()
            .allMatch(name -> form.value(name + line).isBlank());
    if (blank) {
      return null;
    }
    LocalDate on = form.optional("on-" + line, "Date of leg " + line).date();
    Hours hours = form.required("hours-" + line, "Hours of leg " + line).hours();
    Integer landings = form.optional("landings-" + line, "Landings of leg " + line).count(999);
    Integer cycles = form.optional("cycles-" + line, "Cycles of leg " + line).count(999);
    if (on != null && on.isBefore(last)) {
      form.fail(
          "on-" + line,
          "Date of leg "
              + line
              + (last.equals(today)
                  ? " must be today or later"
                  : " must not be before leg " + (number - 1)));
    }
    if (on != null && on.isAfter(today.plusYears(2))) {
      form.fail("on-" + line, "Date of leg " + line + " must be within two years");
    }
    if (hours != null && (hours.seconds() == 0 || hours.compareTo(LONGEST) > 0)) {
      form.fail("hours-" + line, "Hours of leg " + line + " must be more than 0, at most 1,000");
    }
    return form.isBad()
        ? null
        : new Leg(
            number,
            on == null ? last : on,
            hours.seconds(),
            landings == null ? 1 : landings,
            cycles == null ? null : Long.valueOf(cycles));
  }

  private int count() {
    String asked = form.value(form.checked(MORE) ? MORE : "legs");
    int typed = asked.matches("\\d{1,2}") ? Integer.parseInt(asked) : AT_FIRST;
    return Math.max(1, Math.min(MOST_LEGS, typed));
  }
}
