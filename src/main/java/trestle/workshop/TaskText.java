package trestle.workshop;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/**
 * A task list as people write it: a row a task, under the name of its group with a colon. After an
 * upright stroke the data, and "second person" where one inspects.
 *
 * <pre>
 * Engine and nacelle:
 * Differential compression | Manual 72-10
 * Flight controls:
 * Elevator cable tension | Manual 27-30
 * </pre>
 */
final class TaskText {
  static final String SECOND = "second person";

  /** Something to begin with, by the groups of 14 CFR 43, appendix D; to be replaced. */
  static final String EXAMPLE =
      """
      Fuselage and hull:
      Skin and fittings for deterioration and loose parts
      Cabin and cockpit:
      Cleanliness, loose gear that might foul the controls
      Seats and belts
      Instruments and their markings
      Windows and windscreen
      Engine and nacelle:
      Oil, fuel and other leaks
      Studs and nuts
      Compression of each cylinder
      Screens and drain plugs for metal
      Exhaust stacks
      Engine mount
      Lines, hoses and clamps
      Engine controls:
      Travel, security and safetying | | second person
      Landing gear:
      Units, struts and shock absorbers
      Wheels, brakes and tyres
      Wing and centre section:
      Skin, attachment and internal structure
      Flight controls:
      Cables, pulleys, travel and safetying | | second person
      Empennage:
      Attachment, skin and surfaces
      Propeller:
      Nicks, cracks and oil leaks
      Bolts and their safetying
      Radio:
      Mounting, wiring and aerials
      Everything else:
      Engine run: power, magnetos, pressures, temperatures
      """;

  private TaskText() {}

  /**
   * @throws IllegalArgumentException saying what a row "must" be
   */
  static List<TaskLists.Task> parse(String text) {
    List<TaskLists.Task> tasks = new ArrayList<>();
    Area area = Area.WHOLE_AIRCRAFT;
    for (String row : text.split("\n")) {
      String line = row.strip();
      if (line.endsWith(":") && !line.contains("|")) {
        area = Area.named(line.substring(0, line.length() - 1).strip());
      } else if (!line.isEmpty()) {
        tasks.add(task(area, line));
      }
    }
    if (tasks.size() > TaskLists.MOST) {
      throw new IllegalArgumentException("must have at most " + TaskLists.MOST + " tasks");
    }
    return tasks;
  }

  static String write(List<TaskLists.Task> tasks) {
    StringBuilder text = new StringBuilder();
    Area area = null;
    for (TaskLists.Task task : tasks) {
      if (task.area() != area) {
        area = task.area();
        text.append(area.label()).append(":\n");
      }
      text.append(task.title());
      if (!task.data().isEmpty() || task.independent()) {
        text.append(" | ").append(task.data());
      }
      if (task.independent()) {
        text.append(" | ").append(SECOND);
      }
      text.append('\n');
    }
    return text.toString();
  }

  private static TaskLists.Task task(Area area, String line) {
    String[] parts = line.split("\\|", -1);
    String second = parts.length > 2 ? parts[2].strip().toLowerCase(Locale.ROOT) : "";
    if (parts.length > 3 || !second.isEmpty() && !second.equals(SECOND)) {
      throw new IllegalArgumentException(
          "must have rows of task | data | second person; this is none: " + line);
    }
    return new TaskLists.Task(
        area,
        parts[0],
        parts.length > 1 ? parts[1] : "",
        !second.isEmpty() || area.alwaysInspected());
  }
}
