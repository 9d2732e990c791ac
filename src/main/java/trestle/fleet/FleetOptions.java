package trestle.fleet;

import io.quarkus.qute.TemplateExtension;
import java.util.List;
import trestle.web.Option;

/** The choices of this room's forms, for its templates: {@code {fleetOptions:kinds}}. */
@TemplateExtension(namespace = "fleetOptions")
final class FleetOptions {
  private FleetOptions() {}

  static List<Option> kinds() {
    return Option.of("modification", "repair");
  }

  static List<Option> states() {
    return Option.of("fitted", "removed", "inoperative");
  }

  static List<Option> weights() {
    return Option.of("weighing", "change");
  }

  static List<Option> weightUnits() {
    return Option.of("kg", "lb");
  }

  static List<Option> armUnits() {
    return Option.of("mm", "cm", "in");
  }
}
