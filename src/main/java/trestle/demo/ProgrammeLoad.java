package trestle.demo;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.LocalDate;
import java.util.Arrays;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import trestle.programme.NewRequirement;
import trestle.programme.Programmes;
import trestle.programme.Requirements;
import trestle.programme.Terms;
import trestle.web.Viewer;

/** Files the example programmes, one a type, and what single aircraft carry besides. */
@ApplicationScoped
class ProgrammeLoad {
  private static final String EXAMPLE =
      "Example only: to be replaced by the operator's approved programme";
  static final String APPROVED_BY = "Example, approved by nobody";

  @Inject Programmes programmes;
  @Inject Requirements requirements;

  /** The requirements by registration and code. */
  record Filed(Map<String, UUID> requirements) {

    UUID requirement(String registration, String code) {
      UUID id = requirements.get(registration + " " + code);
      if (id == null) {
        throw new IllegalStateException(registration + " carries no requirement " + code);
      }
      return id;
    }
  }

  Filed file(Viewer viewer, LocalDate from, FleetLoad.Registered fleet) {
    Map<String, UUID> filed = new HashMap<>();
    Map<String, Map<String, UUID>> byType = new LinkedHashMap<>();
    for (SeedFile.Line line : SeedFile.lines("aircraft.csv")) {
      String type = line.text("type");
      String registration = line.text("registration");
      Map<String, UUID> ofType = byType.get(type);
      if (ofType == null) {
        ofType = ofType(viewer, type, from);
        byType.put(type, ofType);
      }
      UUID aircraft = fleet.aircraft(registration);
      programmes.adopt(viewer, aircraft, ofType.get(""), from, null, null);
      ofType.forEach((code, id) -> filed.put(registration + " " + code, id));
      ofAircraft(viewer, aircraft, registration, from)
          .forEach((code, id) -> filed.put(registration + " " + code, id));
    }
    return new Filed(filed);
  }

  /** The type's requirements by code, and under "" the programme itself. */
  private Map<String, UUID> ofType(Viewer viewer, String type, LocalDate from) {
    UUID programme =
        programmes.create(
            viewer,
            new Programmes.NewProgramme(type + ", example programme", type, EXAMPLE, from, null));
    Map<String, UUID> codes = new HashMap<>();
    codes.put("", programme);
    for (SeedFile.Line line : SeedFile.lines("requirements.csv")) {
      if (line.text("belongs_to").equals("*") || line.text("belongs_to").equals(type)) {
        codes.put(
            line.text("code"),
            requirements.create(
                viewer,
                NewRequirement.ofProgramme(
                    programme, line.text("subject"), terms(line, from, codes), from, APPROVED_BY)));
      }
    }
    return codes;
  }

  private Map<String, UUID> ofAircraft(
      Viewer viewer, UUID aircraft, String registration, LocalDate from) {
    Map<String, UUID> codes = new HashMap<>();
    for (SeedFile.Line line : SeedFile.lines("requirements.csv")) {
      if (line.text("belongs_to").equals(registration)) {
        codes.put(
            line.text("code"),
            requirements.create(
                viewer,
                NewRequirement.ofAircraft(
                    aircraft, line.text("subject"), terms(line, from, codes), from, APPROVED_BY)));
      }
    }
    return codes;
  }

  private static Terms terms(SeedFile.Line line, LocalDate from, Map<String, UUID> codes) {
    List<UUID> covers =
        line.has("covers")
            ? Arrays.stream(line.text("covers").split(" ")).map(codes::get).toList()
            : List.of();
    return SeedRules.terms(line, from, covers);
  }
}
