package trestle.fleet;

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
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import trestle.ledger.View;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.Form;
import trestle.web.Option;
import trestle.web.Role;
import trestle.web.Viewer;

/** Part numbers: what they are, where they fit, and which serials there are. */
@Path("/parts")
@RequestScoped
public class PartPages {
  private static final String FORMS = MediaType.APPLICATION_FORM_URLENCODED;
  private static final List<Option> KINDS = Option.of("engine", "propeller", "other");
  private static final List<Option> CLASSES =
      Stream.of(PartClass.values()).map(one -> new Option(one.word(), one.label())).toList();

  @Inject Parts parts;
  @Inject StatedLimits limits;
  @Inject Components components;
  @Inject Fleet fleet;
  @Inject Viewer viewer;

  @CheckedTemplate(
      basePath = "fleet",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record PartList(List<PartSheet> parts, Form form, boolean mayState) implements TemplateInstance {}

  @CheckedTemplate(
      basePath = "fleet",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record PartForm(
      String title,
      String action,
      PartSheet part,
      Form form,
      List<Option> kinds,
      List<Option> classes)
      implements TemplateInstance {}

  @CheckedTemplate(
      basePath = "fleet",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record PartPage(
      PartSheet part,
      List<StatedLimits.Stated> limits,
      List<Line> lines,
      List<PartSheet> older,
      Form form,
      boolean mayState)
      implements TemplateInstance {}

  /** A serial of this part number, and where it is. */
  public record Line(UUID id, String serial, String where) {}

  @GET
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response all() {
    return Answers.page(
        new PartList(parts.sheets(viewer, View.EVERYTHING), Form.blank(), mayState()));
  }

  @GET
  @Path("new")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER})
  public Response ask() {
    return Answers.page(newPage(Form.blank().with("kind", "other").with("class", "component")));
  }

  @POST
  @Consumes(FORMS)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER})
  public Response state(MultivaluedMap<String, String> posted) {
    Form form = Form.of(posted);
    PartSheet sheet = read(form, null, null);
    return ComponentAnswers.filed(
        "/parts",
        form,
        () -> parts.state(viewer, new Parts.Stating(sheet, null, form.key())),
        () -> newPage(form));
  }

  @GET
  @Path("{id}")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response one(@PathParam("id") UUID id) {
    List<PartSheet> history = parts.history(viewer, id);
    PartSheet part = history.get(0);
    List<ComponentSheet> same =
        components
            .withParts(viewer, List.of(ComponentSheet.partKey(part.partNumber())), View.EVERYTHING)
            .stream()
            .filter(sheet -> sheet.partNumber().equalsIgnoreCase(part.partNumber()))
            .toList();
    Map<UUID, ComponentHistory> histories =
        components.histories(
            viewer, same.stream().map(ComponentSheet::id).toList(), View.EVERYTHING);
    Map<UUID, AircraftSheet> aircraft = fleet.sheets(viewer, on(histories), View.EVERYTHING);
    return Answers.page(
        new PartPage(
            part,
            limits.ofPart(viewer, part.partNumber()),
            same.stream()
                .map(
                    sheet ->
                        new Line(
                            sheet.id(), sheet.serial(), where(histories.get(sheet.id()), aircraft)))
                .toList(),
            history.subList(1, history.size()),
            Form.blank(),
            mayState()));
  }

  @GET
  @Path("{id}/revision")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER})
  public Response askRevision(@PathParam("id") UUID id) {
    PartSheet part = parts.history(viewer, id).get(0);
    return Answers.page(
        revisePage(
            part,
            Form.blank()
                .with("revises", part.revisionId())
                .with("part-number", part.partNumber())
                .with("description", part.description())
                .with("kind", part.kind().word())
                .with("class", part.partClass().word())
                .with("fits-types", String.join("\n", part.fitsTypes()))
                .with("fits-positions", String.join("\n", part.fitsPositions()))
                .with("fits-why", part.fitsWhy())
                .with("life-limited", part.lifeLimited() ? "yes" : null)
                .with("data", part.dataReference())));
  }

  @POST
  @Path("{id}/revision")
  @Consumes(FORMS)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER})
  public Response revise(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    Form form = Form.of(posted);
    PartSheet part = parts.history(viewer, id).get(0);
    UUID revises = form.required("revises", "What is revised").uuid();
    PartSheet sheet = read(form, id, revises);
    String reason = form.required("reason", "Reason").text(500);
    return ComponentAnswers.filed(
        "/parts/" + id,
        form,
        () -> parts.state(viewer, new Parts.Stating(sheet, reason, form.key())),
        () -> revisePage(part, form));
  }

  private static PartSheet read(Form form, UUID id, UUID revises) {
    String partNumber = form.required("part-number", "Part number").text(60);
    String description = form.required("description", "Description").text(120);
    PartKind kind = form.required("kind", "Kind").choice(PartKind.class);
    PartClass partClass = form.required("class", "Class").choice(PartClass.class);
    List<String> types = lines(form.optional("fits-types", "Types").lines(1_000));
    List<String> positions = lines(form.optional("fits-positions", "Positions").lines(1_000));
    String why = form.optional("fits-why", "Why nowhere else").text(200);
    String data = form.optional("data", "Manufacturer’s data").text(300);
    return form.isBad()
        ? null
        : new PartSheet(
            id,
            revises,
            partNumber,
            description,
            kind,
            partClass,
            types,
            positions,
            why == null ? "" : why,
            form.checked("life-limited"),
            data == null ? "" : data);
  }

  private static List<String> lines(String text) {
    return text == null
        ? List.of()
        : text.lines().map(String::strip).filter(line -> !line.isEmpty()).distinct().toList();
  }

  private PartForm newPage(Form form) {
    return new PartForm("A new part number", "/parts", null, form, KINDS, CLASSES);
  }

  private PartForm revisePage(PartSheet part, Form form) {
    return new PartForm(
        "Revise part " + part.partNumber(),
        "/parts/" + part.id() + "/revision",
        part,
        form,
        KINDS,
        CLASSES);
  }

  private static Set<UUID> on(Map<UUID, ComponentHistory> histories) {
    return histories.values().stream()
        .map(ComponentHistory::fitted)
        .filter(Objects::nonNull)
        .map(Fitting::aircraftId)
        .collect(Collectors.toSet());
  }

  private static String where(ComponentHistory history, Map<UUID, AircraftSheet> aircraft) {
    Fitting fitted = history.fitted();
    return fitted == null
        ? history.state().words()
        : aircraft.get(fitted.aircraftId()).registration() + ", " + fitted.positionLabel();
  }

  private boolean mayState() {
    return viewer.isAny(Role.OWNER, Role.CONTROLLER);
  }
}
