package trestle.workshop;

import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import jakarta.annotation.security.RolesAllowed;
import jakarta.enterprise.context.RequestScoped;
import jakarta.inject.Inject;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.Response;
import java.time.Instant;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.List;
import java.util.UUID;
import trestle.fleet.AircraftSheet;
import trestle.fleet.Fleet;
import trestle.ledger.View;
import trestle.profiles.RuleProfile;
import trestle.profiles.RuleProfiles;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.Form;
import trestle.web.Option;
import trestle.web.Role;
import trestle.web.Shown;
import trestle.web.StatedMoment;
import trestle.web.Viewer;

/** Releasing an aircraft, or not; the check flight after it; special flight permits. */
@Path("/")
@RequestScoped
public class ReleasePages {
  private static final String FORMS = MediaType.APPLICATION_FORM_URLENCODED;

  @Inject Releases releases;
  @Inject CheckFlights checkFlights;
  @Inject FlightPermits permits;
  @Inject OrderBook book;
  @Inject Blocks blocks;
  @Inject Totals totals;
  @Inject RuleProfiles profiles;
  @Inject Fleet fleet;
  @Inject Signatory signatory;
  @Inject InstantSource clock;
  @Inject Viewer viewer;

  /**
   * @param statement that is signed where it is released
   * @param notAirworthy that is signed where it is not; "" where no inspection is signed
   * @param progressive that is signed of a progressive inspection; "" where there is none
   */
  @CheckedTemplate(
      basePath = "workshop",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record OrderRelease(
      WorkOrderSheet sheet,
      AircraftSheet aircraft,
      List<Block> blocks,
      List<Totals.Of> totals,
      String statement,
      String notAirworthy,
      String progressive,
      LocalDate enterBy,
      boolean late,
      RuleProfile profile,
      List<Option> licences,
      Form form)
      implements TemplateInstance {}

  @CheckedTemplate(
      basePath = "workshop",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record CheckFlightPage(
      ReleaseSheet release,
      OrderSheet order,
      AircraftSheet aircraft,
      List<CheckFlights.Checked> checked,
      boolean may,
      Form form)
      implements TemplateInstance {}

  @CheckedTemplate(
      basePath = "workshop",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record PermitList(
      AircraftSheet aircraft,
      List<FlightPermits.Permit> permits,
      LocalDate today,
      boolean may,
      Form form)
      implements TemplateInstance {}

  @CheckedTemplate(
      basePath = "workshop",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record PermitEnd(AircraftSheet aircraft, FlightPermits.Permit permit, Form form)
      implements TemplateInstance {}

  @GET
  @Path("work-orders/{id}/release")
  @RolesAllowed(Allow.ENGINEER)
  public Response ask(@PathParam("id") UUID id) {
    WorkOrderSheet sheet = book.order(viewer, id);
    Form form =
        WorkForm.begun(viewer, clock.instant(), signatory.licences())
            .with("seen", Releases.seen(sheet))
            .with("told", releases.told(viewer, sheet));
    return Answers.page(page(sheet, form));
  }

  @POST
  @Path("work-orders/{id}/release")
  @Consumes(FORMS)
  @RolesAllowed(Allow.ENGINEER)
  public Response release(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    book.order(viewer, id);
    Form form = Form.of(posted);
    String outcome = form.required("airworthy", "Release").choice("yes", "no");
    String listed = form.optional("discrepancies", "Discrepancies").lines(6_000);
    String checkFlight = form.optional("check-flight", "Check flight").text(300);
    String remarks = form.optional("remarks", "Remarks").lines(1_000);
    Releases.Progressive progressive =
        new Releases.Progressive(
            form.optional("routine", "Routine inspection").text(300),
            form.optional("detailed", "Detailed inspection").text(300));
    String seen = form.value("seen");
    String told = form.value("told");
    String licence = WorkForm.licence(form);
    return Answers.filing(
        form,
        () -> {
          releases.release(
              viewer,
              signatory.prove(form),
              new Releases.NewRelease(
                  id,
                  "yes".equals(outcome),
                  listed == null ? List.of() : List.of(listed.split("\n")),
                  checkFlight,
                  remarks,
                  licence,
                  progressive,
                  seen,
                  told),
              form.key());
          return "/work-orders/" + id;
        },
        () -> page(book.order(viewer, id), form));
  }

  @GET
  @Path("work-releases/{id}/check-flight")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response askCheckFlight(@PathParam("id") UUID id) {
    Form form =
        Form.blank()
            .with("on", Shown.typed(viewer.dateOf(clock.instant())))
            .with("satisfactory", "yes");
    return Answers.page(checkPage(id, form));
  }

  @POST
  @Path("work-releases/{id}/check-flight")
  @Consumes(FORMS)
  @RolesAllowed(Allow.PILOT)
  public Response checkFlight(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    ReleaseSheet release = releases.one(viewer, id);
    Form form = Form.of(posted);
    String words = form.required("words", "How it went").lines(2_000);
    String well = form.required("satisfactory", "Satisfactory").choice("yes", "no");
    Instant at = StatedMoment.of(form, "Flown on", viewer, clock.instant());
    return Answers.filing(
        form,
        () -> {
          checkFlights.log(viewer, id, words, "yes".equals(well), at, form.key());
          return "/work-orders/" + release.orderId();
        },
        () -> checkPage(id, form));
  }

  @GET
  @Path("aircraft/{id}/flight-permits")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response permits(@PathParam("id") UUID id) {
    return Answers.page(permitPage(id, Form.blank()));
  }

  @POST
  @Path("aircraft/{id}/flight-permits")
  @Consumes(FORMS)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response permit(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    fleet.sheet(viewer, id, View.EVERYTHING);
    Form form = Form.of(posted);
    String number = form.required("number", "Number").text(60);
    String issuedBy = form.required("issued-by", "Issued by").text(120);
    String conditions = form.required("conditions", "Conditions").lines(1_000);
    LocalDate first = form.required("first-day", "First day").date();
    LocalDate last = form.required("last-day", "Last day").date();
    return Answers.filing(
        form,
        () -> {
          permits.file(
              viewer,
              new FlightPermits.NewPermit(id, number, issuedBy, conditions, first, last),
              form.key());
          return "/aircraft/" + id + "/flight-permits";
        },
        () -> permitPage(id, form));
  }

  @GET
  @Path("flight-permits/{id}/voiding")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response askEnd(@PathParam("id") UUID id) {
    return Answers.page(endPage(id, Form.blank()));
  }

  @POST
  @Path("flight-permits/{id}/voiding")
  @Consumes(FORMS)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response end(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    FlightPermits.Permit permit = permits.one(viewer, id);
    Form form = Form.of(posted);
    String reason = form.required("reason", "Reason").text(500);
    return Answers.filing(
        form,
        () -> {
          permits.end(viewer, id, reason, form.key());
          return "/aircraft/" + permit.aircraftId() + "/flight-permits";
        },
        () -> endPage(id, form));
  }

  private OrderRelease page(WorkOrderSheet sheet, Form form) {
    AircraftSheet aircraft = aircraft(sheet.order().aircraftId());
    RuleProfile profile = profiles.of(viewer, aircraft.id(), View.EVERYTHING);
    LocalDate enterBy = Releases.enterBy(profile, sheet);
    boolean inspected = sheet.lines().stream().anyMatch(Statements::isInspection);
    return new OrderRelease(
        sheet,
        aircraft,
        blocks.of(viewer, sheet),
        totals.at(viewer, aircraft.id(), clock.instant()),
        statement(profile, sheet, true),
        inspected ? statement(profile, sheet, false) : "",
        inspected ? profile.statements().progressive() : "",
        enterBy,
        enterBy != null && viewer.dateOf(clock.instant()).isAfter(enterBy),
        profile,
        signatory.licences(),
        form);
  }

  private String statement(RuleProfile profile, WorkOrderSheet sheet, boolean airworthy) {
    return Statements.release(
        profile, sheet, airworthy, Releases.Progressive.NONE, viewer.dateOf(clock.instant()));
  }

  private CheckFlightPage checkPage(UUID id, Form form) {
    ReleaseSheet release = releases.one(viewer, id);
    List<CheckFlights.Checked> checked = checkFlights.of(viewer, id);
    boolean may =
        viewer.is(Role.PILOT)
            && release.asksCheckFlight()
            && checked.stream().noneMatch(CheckFlights.Checked::satisfactory);
    return new CheckFlightPage(
        release,
        book.order(viewer, release.orderId()).order(),
        aircraft(release.aircraftId()),
        checked,
        may,
        form);
  }

  private PermitList permitPage(UUID aircraft, Form form) {
    return new PermitList(
        aircraft(aircraft),
        permits.of(viewer, aircraft),
        viewer.dateOf(clock.instant()),
        viewer.isAny(Role.OWNER, Role.CONTROLLER, Role.ENGINEER),
        form);
  }

  private PermitEnd endPage(UUID id, Form form) {
    FlightPermits.Permit permit = permits.one(viewer, id);
    return new PermitEnd(aircraft(permit.aircraftId()), permit, form);
  }

  private AircraftSheet aircraft(UUID id) {
    return fleet.sheet(viewer, id, View.EVERYTHING);
  }
}
