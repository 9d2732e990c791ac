package trestle.programme;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import trestle.standing.Subject;
import trestle.web.Refusal;

/** Whether what a requirement is to say may be said; each refusal names the field. */
final class TermsCheck {
  private static final Set<String> AIRCRAFT_ORIGINS = Set.of(Rules.NEW, Rules.EFFECTIVE);
  private static final Set<String> PART_ORIGINS =
      Set.of(Rules.NEW, Rules.OVERHAUL, Rules.FITTED, Rules.EFFECTIVE);

  private final UUID id;
  private final String subject;
  private final Terms terms;
  private final Map<UUID, RequirementRepository.Revised> others;
  private final List<Refusal.Reason> reasons = new ArrayList<>();

  /**
   * @param id the requirement's own
   * @param others the latest revision of every requirement that could be named, by id
   */
  TermsCheck(
      UUID id, String subject, Terms terms, Map<UUID, RequirementRepository.Revised> others) {
    this.id = id;
    this.subject = subject;
    this.terms = terms;
    this.others = others;
  }

  List<Refusal.Reason> reasons() {
    words();
    origins();
    leeway();
    covers();
    companions();
    return reasons;
  }

  private void words() {
    if (terms.title().isBlank() || terms.title().length() > 120) {
      refuse("title", "Title needs 1 to 120 characters.");
    }
    if (terms.forbids().isBlank() || terms.forbids().length() > 60) {
      refuse("forbids", "Say in 1 to 60 characters what may not be flown once it is overdue.");
    }
  }

  private void origins() {
    boolean aircraft = subject.equals(Subject.AIRCRAFT);
    for (String origin : Rules.origins(terms.rule())) {
      if (aircraft && PART_ORIGINS.contains(origin) && !AIRCRAFT_ORIGINS.contains(origin)) {
        refuse(
            "rule",
            "An aircraft is not fitted or overhauled: count from new, from last done"
                + " or from the effective date, or make this a requirement of a component.");
      } else if (!PART_ORIGINS.contains(origin)) {
        refuse(
            "rule",
            "“"
                + origin
                + "” is not an origin: use last-done, new, overhaul, fitted"
                + " or effective.");
      }
    }
  }

  private void leeway() {
    boolean cited = !terms.toleranceSource().isBlank();
    if (terms.kind() == RequirementKind.LIFE_LIMIT && Rules.givesLeeway(terms.rule())) {
      refuse("kind", "A life limit has no tolerance and no window: leave them empty.");
      return;
    }
    if (terms.kind().allowsNothingOfItself() && Rules.givesLeeway(terms.rule()) && !cited) {
      refuse(
          "tolerance-source",
          "A directive or limitation has no tolerance and no window unless its own text gives one:"
              + " name that text, or leave tolerance and window empty.");
    }
    if (!terms.toleranceCondition().isBlank() && !Rules.givesLeeway(terms.rule())) {
      refuse("tolerance-condition", "There is no tolerance that this condition could belong to.");
    }
  }

  private void covers() {
    for (UUID covered : new HashSet<>(terms.covers())) {
      RequirementRepository.Revised other = others.get(covered);
      if (covered.equals(id)) {
        refuse("covers", "A requirement does not cover itself.");
      } else if (other == null) {
        refuse("covers", "A requirement that it should cover is not among yours.");
      } else if (!other.requirement().subject().equals(subject)) {
        refuse(
            "covers",
            "“%s” is about another kind of subject (%s, not %s), so doing this one can’t do it too."
                .formatted(
                    other.revision().terms().title(), other.requirement().subject(), subject));
      } else {
        cycle(covered, revised -> revised.revision().terms().covers(), "covers", "covers");
      }
    }
  }

  private void companions() {
    for (String name : Rules.companions(terms.rule())) {
      RequirementRepository.Revised other = other(name);
      if (other == null) {
        refuse("rule", "The work that it is due with is not among your requirements.");
      } else if (other.requirement().id().equals(id)) {
        refuse("rule", "A requirement can’t be due with itself.");
      } else if (!other.requirement().subject().equals(subject)) {
        refuse(
            "rule",
            "“%s” is about another kind of subject (%s, not %s), so this can’t be due with it."
                .formatted(
                    other.revision().terms().title(), other.requirement().subject(), subject));
      } else {
        cycle(
            other.requirement().id(),
            revised ->
                Rules.companions(revised.revision().terms().rule()).stream()
                    .map(UUID::fromString)
                    .toList(),
            "rule",
            "is due with");
      }
    }
  }

  private RequirementRepository.Revised other(String name) {
    try {
      return others.get(UUID.fromString(name));
    } catch (IllegalArgumentException e) {
      return null;
    }
  }

  private interface Next {
    List<UUID> of(RequirementRepository.Revised revised);
  }

  /** Refuses when this requirement is reached again from one that it names; says along what way. */
  private void cycle(UUID start, Next next, String field, String verb) {
    Map<UUID, UUID> cameFrom = new LinkedHashMap<>();
    List<UUID> open = new ArrayList<>(List.of(start));
    cameFrom.put(start, id);
    while (!open.isEmpty()) {
      UUID at = open.remove(open.size() - 1);
      if (!others.containsKey(at)) {
        continue;
      }
      for (UUID named : next.of(others.get(at))) {
        if (named.equals(id)) {
          refuse(field, "That would go round in a circle: " + way(at, cameFrom, verb) + ".");
          return;
        }
        if (cameFrom.putIfAbsent(named, at) == null) {
          open.add(named);
        }
      }
    }
  }

  private String way(UUID last, Map<UUID, UUID> cameFrom, String verb) {
    String way = "“" + terms.title() + "”";
    for (UUID at = last; !at.equals(id); at = cameFrom.get(at)) {
      way = "“" + others.get(at).revision().terms().title() + "” " + verb + " " + way;
    }
    return "“" + terms.title() + "” " + verb + " " + way;
  }

  private void refuse(String field, String sentence) {
    reasons.add(new Refusal.Reason(field, sentence));
  }
}
