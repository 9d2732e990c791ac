package trestle.defects;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.UUID;
import trestle.flights.FlightDraft;
import trestle.flights.JourneyLog;
import trestle.web.Filing;
import trestle.web.Viewer;

/** Files a flight and the defect that showed on it in one transaction, as a report does. */
@ApplicationScoped
class Both {
  @Inject JourneyLog log;
  @Inject Defects defects;

  @Filing
  long file(Viewer viewer, UUID aircraft, Instant off) {
    Instant landed = off.plus(Duration.ofHours(1));
    UUID flight =
        log.file(viewer, aircraft, FlightDraft.of("A", "B", off, landed, 1, "I. Tarn"), null)
            .entryId();
    DefectDraft draft =
        new DefectDraft("Hum", "24", "", null, null, Judgement.CAN_FLY, null, false, "", landed);
    return defects.report(viewer, aircraft, draft, List.of(), flight, null).number();
  }
}
