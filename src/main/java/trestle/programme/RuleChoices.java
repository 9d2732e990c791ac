package trestle.programme;

import java.util.ArrayList;
import java.util.List;
import trestle.reckoning.Group;
import trestle.reckoning.Limit;
import trestle.standing.Force;
import trestle.web.Option;

/** The choices of the forms about requirements, with their words. */
public record RuleChoices() {

  public List<Option> kinds() {
    return RequirementForm.kinds();
  }

  public List<Option> bys() {
    return List.of(
        new Option("use", "by use, again and again"),
        new Option("calendar", "by the calendar, again and again"),
        new Option("total", "once at a total"),
        new Option("date", "once on a date"));
  }

  public List<Option> origins() {
    return RequirementForm.origins();
  }

  public List<Option> ends() {
    return List.of(
        new Option(Limit.Ends.ANNIVERSARY.word(), "the same day of the month"),
        new Option(Limit.Ends.MONTH_END.word(), "the last day of the month"));
  }

  public List<Option> lates() {
    return List.of(
        new Option(Limit.Late.RESTART.word(), "when it was done"),
        new Option(Limit.Late.KEEP_SCHEDULE.word(), "where it was due"));
  }

  public List<Option> combines() {
    return List.of(
        new Option(Group.Combine.FIRST.word(), "whichever limit comes first"),
        new Option(Group.Combine.LAST.word(), "whichever limit comes later"));
  }

  public List<Option> initialCombines() {
    List<Option> all = new ArrayList<>(combines());
    all.add(
        new Option(
            RuleForm.LATER_OF_ONE, "limit 1, or the first of limits 2 and 3: whichever is later"));
    all.add(
        new Option(
            RuleForm.EARLIER_OF_ONE,
            "limit 1, or the later of limits 2 and 3: whichever is first"));
    return all;
  }

  public List<Option> wheres() {
    return RequirementForm.wheres();
  }

  public List<Option> forces() {
    return List.of(
        new Option(
            Force.MANDATORY.word(),
            "Mandatory",
            "by law, a directive, a limitation or the approved programme"),
        new Option(Force.RECOMMENDED.word(), "Recommended", "it holds nothing"));
  }

  public List<Option> done() {
    return List.of(
        new Option("done", "The work was done"),
        new Option("baseline", "From where it counts", "new, overhauled, or last done before"));
  }

  public List<Option> hows() {
    return List.of(new Option("certify", "I certify it, under my licence"), transcribing().get(0));
  }

  public List<Option> transcribing() {
    return List.of(new Option("transcribe", "Copied from old papers"));
  }

  public List<Option> changes() {
    return List.of(
        new Option("exclude", "does not carry it"), new Option("include", "carries it again"));
  }
}
