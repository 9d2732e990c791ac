package trestle.apron;

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
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.Response;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import java.util.stream.Stream;
import trestle.fleet.AircraftSheet;
import trestle.fleet.Fleet;
import trestle.ledger.View;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.Form;
import trestle.web.NotHere;
import trestle.web.Refusal;
import trestle.web.Role;
import trestle.web.Stale;
import trestle.web.Viewer;

/** The lists to go by: walking round with one, reading them all, revising one. */
@Path("/")
@RequestScoped
public class CheckListPages {
  @Inject CheckLists lists;
  @Inject Fleet fleet;
  @Inject Viewer viewer;

  @CheckedTemplate(
      basePath = "apron",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record WalkRound(
      AircraftSheet aircraft, CheckListSheet list, boolean mayReport, boolean mayRevise)
      implements TemplateInstance {}

  @CheckedTemplate(
      basePath = "apron",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record CheckListsPage(List<CheckListSheet> lists, List<CheckListSheet> missing, boolean mayRevise)
      implements TemplateInstance {}

  @CheckedTemplate(
      basePath = "apron",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record CheckListRevise(CheckListSheet list, Form form, boolean stale)
      implements TemplateInstance {}

  @GET
  @Path("aircraft/{id}/walk-round")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response walkRound(@PathParam("id") UUID id) {
    AircraftSheet aircraft = fleet.sheet(viewer, id, View.EVERYTHING);
    return Answers.page(
        new WalkRound(
            aircraft,
            lists.of(viewer, CheckListSheet.Kind.WALK_ROUND, aircraft.typeName()),
            viewer.isAny(Role.OWNER, Role.CONTROLLER, Role.PILOT, Role.ENGINEER),
            mayRevise()));
  }

  @GET
  @Path("check-lists")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response all() {
    List<CheckListSheet> all = lists.all(viewer);
    List<CheckListSheet> missing = new ArrayList<>();
    for (CheckListSheet.Kind kind : CheckListSheet.Kind.values()) {
      for (String type : lists.types(viewer)) {
        if (all.stream().noneMatch(l -> l.kind() == kind && l.typeName().equals(type))) {
          missing.add(new CheckListSheet(kind, type, List.of(), null, null, null));
        }
      }
    }
    return Answers.page(new CheckListsPage(all, missing, mayRevise()));
  }

  @GET
  @Path("check-lists/revision")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER})
  public Response ask(@QueryParam("kind") String kind, @QueryParam("type") String type) {
    CheckListSheet list = asked(kind, type);
    return Answers.page(
        new CheckListRevise(
            list,
            Form.blank()
                .with("kind", list.kind().word())
                .with("type", list.typeName())
                .with("revises", list.rowId())
                .with("lines", list.text()),
            false));
  }

  @POST
  @Path("check-lists/revision")
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER})
  public Response revise(MultivaluedMap<String, String> posted) {
    Form form = Form.of(posted);
    CheckListSheet list = asked(form.value("kind"), form.value("type"));
    String lines = form.required("lines", "Lines").lines(20_000);
    UUID revises = form.optional("revises", "List").uuid();
    String reason = revises == null ? null : form.required("reason", "Reason").text(500);
    if (form.isReady()) {
      try {
        lists.revise(
            viewer,
            new CheckLists.NewList(
                list.kind(),
                list.typeName(),
                Stream.of(lines.split("\n")).toList(),
                revises,
                reason,
                form.key()));
        return Answers.see("/check-lists");
      } catch (Refusal refusal) {
        form.refused(refusal);
      } catch (Stale stale) {
        form.fail("", stale.getMessage());
        form.with("revises", list.rowId());
        return Answers.page(409, new CheckListRevise(list, form, true));
      }
    }
    return Answers.again(form, new CheckListRevise(list, form, false));
  }

  /** The type's own list; where there is none yet, what it goes by now, to begin with. */
  private CheckListSheet asked(String kindWord, String type) {
    CheckListSheet.Kind kind = CheckListSheet.Kind.of(kindWord);
    String typeName = type == null ? "" : type.strip();
    if (kind == null || !typeName.isEmpty() && !lists.types(viewer).contains(typeName)) {
      throw new NotHere("There is no such list here.");
    }
    return lists
        .own(viewer, kind, typeName)
        .orElseGet(
            () ->
                new CheckListSheet(
                    kind, typeName, lists.of(viewer, kind, typeName).lines(), null, null, null));
  }

  private boolean mayRevise() {
    return viewer.isAny(Role.OWNER, Role.CONTROLLER);
  }
}
