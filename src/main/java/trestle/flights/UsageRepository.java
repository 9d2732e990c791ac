package trestle.flights;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import jakarta.persistence.Query;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.hibernate.query.NativeQuery;
import org.hibernate.type.StandardBasicTypes;
import trestle.formats.CanonicalJson;
import trestle.reckoning.Counter;

/** The derived tables: each flight's step of every counter, and the breaks between flights. */
@ApplicationScoped
class UsageRepository {
  @Inject EntityManager entities;

  /** The derived steps of these entries, as they stand. */
  List<Step> steps(Collection<UUID> entryIds) {
    return read(
        entities
            .createNativeQuery(
                "select entry_id, aircraft_id, day - date '1970-01-01' as day, landed_at, hours,"
                    + " flight_hours, landings, cycles, cast(others as text) as others"
                    + " from usage_step where entry_id = any(:ids)",
                Object[].class)
            .setParameter("ids", array(entryIds)));
  }

  List<Step> stepsOf(UUID aircraftId) {
    return read(
        entities
            .createNativeQuery(
                "select entry_id, aircraft_id, day - date '1970-01-01' as day, landed_at, hours,"
                    + " flight_hours, landings, cycles, cast(others as text) as others"
                    + " from usage_step where aircraft_id = :id order by landed_at, entry_id",
                Object[].class)
            .setParameter("id", aircraftId));
  }

  /** The breaks at these flights, as they stand. */
  List<Break> breaks(Collection<UUID> flightIds) {
    return entities
        .createNativeQuery(
            "select flight_id, aircraft_id, kind, earlier_flight_id, amount from flight_break"
                + " where flight_id = any(:ids)",
            Object[].class)
        .setParameter("ids", array(flightIds))
        .getResultStream()
        .map(UsageRepository::brokenAt)
        .toList();
  }

  /** All breaks of these aircraft. */
  List<Break> breaksOf(Collection<UUID> aircraftIds) {
    return entities
        .createNativeQuery(
            "select flight_id, aircraft_id, kind, earlier_flight_id, amount from flight_break"
                + " where aircraft_id = any(:ids)",
            Object[].class)
        .setParameter("ids", array(aircraftIds))
        .getResultStream()
        .map(UsageRepository::brokenAt)
        .toList();
  }

  void removeSteps(Collection<UUID> entryIds) {
    if (!entryIds.isEmpty()) {
      entities
          .createNativeQuery("delete from usage_step where entry_id = any(:ids)")
          .setParameter("ids", array(entryIds))
          .executeUpdate();
    }
  }

  void removeBreaks(Collection<Break> breaks) {
    for (Break gone : breaks) {
      entities
          .createNativeQuery("delete from flight_break where flight_id = :id and kind = :kind")
          .setParameter("id", gone.flightId())
          .setParameter("kind", gone.kind().word())
          .executeUpdate();
    }
  }

  /** Writes steps, new or changed, in one statement. */
  void putSteps(List<Step> steps) {
    if (steps.isEmpty()) {
      return;
    }
    ArrayNode rows = JsonNodeFactory.instance.arrayNode();
    steps.forEach(step -> rows.add(json(step)));
    entities
        .createNativeQuery(
            "insert into usage_step (operator_id, entry_id, aircraft_id, day, landed_at, hours,"
                + " flight_hours, landings, cycles, others)"
                + " select current_operator(), s.* from jsonb_to_recordset(cast(:rows as jsonb))"
                + " as s(entry_id uuid, aircraft_id uuid, day date, landed_at bigint,"
                + " hours bigint, flight_hours bigint, landings int, cycles int, others jsonb)"
                + " on conflict (operator_id, entry_id) do update set day = excluded.day,"
                + " landed_at = excluded.landed_at, hours = excluded.hours,"
                + " flight_hours = excluded.flight_hours, landings = excluded.landings,"
                + " cycles = excluded.cycles, others = excluded.others")
        .setParameter("rows", rows.toString())
        .executeUpdate();
  }

  void putBreaks(List<Break> breaks) {
    if (breaks.isEmpty()) {
      return;
    }
    ArrayNode rows = JsonNodeFactory.instance.arrayNode();
    breaks.forEach(each -> rows.add(json(each)));
    entities
        .createNativeQuery(
            "insert into flight_break (operator_id, flight_id, aircraft_id, kind,"
                + " earlier_flight_id, amount)"
                + " select current_operator(), s.* from jsonb_to_recordset(cast(:rows as jsonb))"
                + " as s(flight_id uuid, aircraft_id uuid, kind text, earlier_flight_id uuid,"
                + " amount bigint)"
                + " on conflict (operator_id, flight_id, kind) do update set"
                + " earlier_flight_id = excluded.earlier_flight_id, amount = excluded.amount")
        .setParameter("rows", rows.toString())
        .executeUpdate();
  }

  /**
   * The steps of many aircraft up to a day, in the order of landing: one statement and one row an
   * aircraft, since this is read by the hundred thousand.
   */
  Map<UUID, StepArrays> arrays(Collection<UUID> aircraftIds, LocalDate upTo) {
    Query query =
        entities
            .createNativeQuery(
                "select aircraft_id, array_agg(landed_at) as landed_at, array_agg(epoch_day) as day,"
                    + " array_agg(hours) as hours, array_agg(cast(landings as bigint)) as landings,"
                    + " case when count(flight_hours) > 0 then array_agg(flight_hours) end"
                    + " as flight_hours,"
                    + " case when count(cycles) > 0 then array_agg(cast(cycles as bigint)) end"
                    + " as cycles,"
                    + " case when count(others) > 0 then array_agg(cast(others as text)) end"
                    + " as others"
                    + " from (select *, day - date '1970-01-01' as epoch_day from usage_step"
                    + " where aircraft_id = any(:ids) and day <= :upTo"
                    + " order by aircraft_id, landed_at) s group by aircraft_id")
            .setParameter("ids", array(aircraftIds))
            .setParameter("upTo", upTo);
    query
        .unwrap(NativeQuery.class)
        .addScalar("aircraft_id", StandardBasicTypes.UUID)
        .addScalar("landed_at", Long[].class)
        .addScalar("day", Integer[].class)
        .addScalar("hours", Long[].class)
        .addScalar("landings", Long[].class)
        .addScalar("flight_hours", Long[].class)
        .addScalar("cycles", Long[].class)
        .addScalar("others", String[].class);
    Map<UUID, StepArrays> arrays = new HashMap<>();
    for (Object each : query.getResultList()) {
      Object[] row = (Object[]) each;
      arrays.put(
          (UUID) row[0],
          StepArrays.of(
              (Long[]) row[1],
              (Integer[]) row[2],
              (Long[]) row[3],
              (Long[]) row[4],
              (Long[]) row[5],
              (Long[]) row[6],
              others((String[]) row[7])));
    }
    return arrays;
  }

  private static List<Map<Counter, Long>> others(String[] texts) {
    if (texts == null) {
      return null;
    }
    List<Map<Counter, Long>> others = new ArrayList<>();
    for (String text : texts) {
      others.add(others(text));
    }
    return others;
  }

  private static Map<Counter, Long> others(String text) {
    Map<Counter, Long> others = new HashMap<>();
    if (text != null) {
      CanonicalJson.parse(text)
          .properties()
          .forEach(each -> others.put(new Counter(each.getKey()), each.getValue().asLong()));
    }
    return others;
  }

  private static List<Step> read(Query query) {
    List<Step> steps = new ArrayList<>();
    for (Object each : query.getResultList()) {
      Object[] row = (Object[]) each;
      steps.add(
          new Step(
              (UUID) row[0],
              (UUID) row[1],
              (Integer) row[2],
              (Long) row[3],
              (Long) row[4],
              (Long) row[5],
              (Integer) row[6],
              (Integer) row[7],
              others((String) row[8])));
    }
    return steps;
  }

  private static Break brokenAt(Object row) {
    Object[] columns = (Object[]) row;
    return new Break(
        (UUID) columns[0],
        (UUID) columns[1],
        BreakKind.parse((String) columns[2]),
        (UUID) columns[3],
        (Long) columns[4]);
  }

  private static ObjectNode json(Step step) {
    ObjectNode json = JsonNodeFactory.instance.objectNode();
    json.put("entry_id", step.entryId().toString());
    json.put("aircraft_id", step.aircraftId().toString());
    json.put("day", LocalDate.ofEpochDay(step.day()).toString());
    json.put("landed_at", step.landedAt());
    json.put("hours", step.hours());
    json.put("flight_hours", step.flightHours());
    json.put("landings", step.landings());
    json.put("cycles", step.cycles());
    if (!step.others().isEmpty()) {
      ObjectNode others = json.putObject("others");
      step.others().forEach((counter, units) -> others.put(counter.name(), units));
    }
    return json;
  }

  private static ObjectNode json(Break each) {
    ObjectNode json = JsonNodeFactory.instance.objectNode();
    json.put("flight_id", each.flightId().toString());
    json.put("aircraft_id", each.aircraftId().toString());
    json.put("kind", each.kind().word());
    json.put("earlier_flight_id", each.earlierId() == null ? null : each.earlierId().toString());
    json.put("amount", each.amount());
    return json;
  }

  private static UUID[] array(Collection<UUID> ids) {
    return ids.toArray(UUID[]::new);
  }
}
