package trestle.fleet;

import java.time.LocalDate;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;

/** What one aircraft carries beside its numbered parts, in one view. */
public record Configuration(
    List<Mod> modifications, List<Item> equipment, EmptyWeight emptyWeight) {

  public Configuration {
    modifications = List.copyOf(modifications);
    equipment = List.copyOf(equipment);
  }

  /**
   * A modification or repair.
   *
   * @param code by which requirements and directives name it
   * @param approval the approval it rests on, or ""
   * @param formReference the form that a major one was reported on, or ""
   * @param since the day from which this holds
   */
  public record Mod(
      UUID id,
      String code,
      String title,
      boolean repair,
      boolean major,
      String approval,
      String formReference,
      String systems,
      String remarks,
      boolean embodied,
      LocalDate since) {

    public String kind() {
      return (major ? "major " : "") + (repair ? "repair" : "modification");
    }
  }

  /**
   * A piece of equipment.
   *
   * @param state fitted, removed or inoperative
   * @param placard what the placard says of one that is inoperative
   */
  public record Item(
      UUID id, String name, String state, String placard, String remarks, LocalDate since) {}

  /**
   * Reads the code of a modification, in whatever letters it was typed.
   *
   * @throws IllegalArgumentException whose message goes on from the field's label
   */
  public static String code(String typed) {
    String code = typed.strip().toUpperCase(Locale.ROOT);
    if (!code.matches("[A-Z0-9][A-Z0-9./-]{0,39}")) {
      throw new IllegalArgumentException(
          "must be letters, digits, points, slashes and hyphens, at most 40, like FLOATS-2");
    }
    return code;
  }

  /** The codes of what is embodied. */
  public Set<String> codes() {
    return modifications.stream()
        .filter(Mod::embodied)
        .map(Mod::code)
        .collect(Collectors.toUnmodifiableSet());
  }

  /** Major repairs and modifications that are embodied. */
  public List<Mod> major() {
    return modifications.stream().filter(mod -> mod.major() && mod.embodied()).toList();
  }
}
