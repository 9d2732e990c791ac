package trestle.profiles;

import java.util.List;
import trestle.web.Form;
import trestle.web.Option;

/** What the page of a profile offers to choose from, and how many lines its lists show. */
record ProfileChoices(Form form) {
  public List<Option> monthRules() {
    return List.of(
        new Option("anniversary", "runs to the same day of the month, else its last"),
        new Option("month-end", "runs to the last day of its month"));
  }

  public List<Option> countsFroms() {
    return List.of(
        new Option("signed", "counts from when the inspection is signed"),
        new Option("released", "counts from the release"));
  }

  public List<Option> untriageds() {
    return List.of(
        new Option("holds", "holds the aircraft"),
        new Option("limits", "limits the aircraft, unless its reporter says it must not fly"));
  }

  public List<Option> deferrers() {
    return List.of(
        new Option("engineer", "An engineer whose licence is good that day"),
        new Option("pilot", "A pilot"));
  }

  public List<Option> clockBases() {
    return List.of(
        new Option("utc", "are counted in UTC"),
        new Option("local", "are counted in the operator’s local time"));
  }

  public List<Option> categories() {
    return Option.of("B", "C", "D");
  }

  public List<Option> bys() {
    return List.of(
        new Option("hours", "hours"),
        new Option("landings", "landings"),
        new Option("cycles", "cycles"),
        new Option(ProfileForm.BY_CALENDAR, "the calendar"));
  }

  public List<Option> lates() {
    return List.of(
        new Option("restart", "the next counts from when it was done"),
        new Option("keep-schedule", "the next is due as if it had been in time"));
  }

  public List<Integer> tolerances() {
    return ProfileForm.lines(form, "tolerance-label");
  }

  public List<Integer> parts() {
    return ProfileForm.lines(form, "part-class");
  }

  public List<Integer> reports() {
    return ProfileForm.lines(form, "report-kind");
  }
}
