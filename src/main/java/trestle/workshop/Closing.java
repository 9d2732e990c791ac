package trestle.workshop;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import trestle.defects.CertifiedWork;
import trestle.defects.DefectBook;
import trestle.defects.Rectifications;
import trestle.people.Members.LicenceLine;
import trestle.people.Proof;
import trestle.profiles.RuleProfile;
import trestle.programme.Compliances;
import trestle.programme.NewCompliance;
import trestle.web.Viewer;

/**
 * What the end of an order does to the records of the rooms below: required work that was done is
 * complied with, defects that were put right are closed. Inspections have counted since they were
 * signed; where the rule profile counts from the release, that day is told now.
 */
@ApplicationScoped
class Closing {
  @Inject Compliances compliances;
  @Inject Rectifications rectifications;
  @Inject DefectBook defects;
  @Inject Totals totals;

  /**
   * @param on the day of the release
   * @param airworthy a day of release only counts where there is one
   */
  record Of(
      Viewer viewer,
      Proof proof,
      LicenceLine licence,
      WorkOrderSheet order,
      RuleProfile profile,
      LocalDate on,
      boolean airworthy) {

    boolean countsFromRelease() {
      return airworthy && profile.countsFrom() == RuleProfile.CountsFrom.RELEASED;
    }
  }

  void close(Of of) {
    comply(of);
    rectify(of);
  }

  private void comply(Of of) {
    Totals.Running running = totals.of(of.viewer, of.order.order().aircraftId());
    for (OrderLine line : of.order.lines()) {
      if (line.line().requirementId() == null || !line.isWorked()) {
        continue;
      }
      UUID compliance =
          line.work().complianceId() != null ? line.work().complianceId() : file(of, line, running);
      if (of.countsFromRelease()) {
        compliances.countFrom(
            of.viewer,
            compliance,
            of.on,
            "Released on " + of.on + " by " + of.order.order().no() + ": it counts from then.");
      }
    }
  }

  private UUID file(Of of, OrderLine line, Totals.Running running) {
    LineSheet asked = line.line();
    WorkSheet work = line.work();
    return compliances.file(
        of.viewer,
        new NewCompliance(
            asked.requirementId(),
            asked.aircraftId(),
            asked.componentId(),
            false,
            work.at(),
            running.usage(asked.componentId(), work.at()),
            of.order.order().no() + ", line " + asked.ordinal(),
            "",
            of.licence.number(),
            "",
            true,
            null,
            Drafting.cut(work.words() + " (work by " + work.by() + ")", 500),
            null));
  }

  private void rectify(Of of) {
    List<OrderLine> done =
        of.order.lines().stream()
            .filter(line -> line.line().defectId() != null && line.isWorked())
            .toList();
    Map<UUID, DefectBook.Entry> entries =
        defects.entries(of.viewer, done.stream().map(line -> line.line().defectId()).toList());
    for (OrderLine line : done) {
      if (entries.get(line.line().defectId()).isOpen()) {
        WorkSheet work = line.work();
        String words =
            Drafting.cut(work.words(), 3_800)
                + " ("
                + of.order.order().no()
                + ", line "
                + line.line().ordinal()
                + ", by "
                + work.by()
                + ")";
        rectifications.rectify(
            of.viewer,
            of.proof,
            line.line().defectId(),
            new CertifiedWork(
                words, Drafting.cut(work.data(), 200), of.licence.number(), work.at(), true),
            null);
      }
    }
  }
}
