package trestle.programme;

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
import java.util.UUID;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.Form;
import trestle.web.Refusal;
import trestle.web.Role;
import trestle.web.Stale;
import trestle.web.Viewer;

/** A record that required work was done: what it says, what became of it, and taking it away. */
@Path("/")
@RequestScoped
public class ComplianceRecordPages {
  @Inject Compliances compliances;
  @Inject ComplianceRecords complianceRecords;
  @Inject ComplianceView records;
  @Inject RequirementView views;
  @Inject Viewer viewer;

  @CheckedTemplate(
      basePath = "programme",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record CompliancePage(ComplianceView.Record record, Form form, boolean mayCorrect)
      implements TemplateInstance {}

  @GET
  @Path("compliances/{id}")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response one(@PathParam("id") UUID id) {
    return Answers.page(recordPage(id, Form.blank()));
  }

  @POST
  @Path("compliances/{id}/voiding")
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response voided(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    Form form = Form.of(posted);
    String reason = form.required("reason", "Reason").text(500);
    int status = 422;
    if (form.isReady()) {
      try {
        // Asked before: once it is filed nothing more may fail.
        String next = recordLink(complianceRecords.one(viewer, id));
        compliances.voided(viewer, id, reason, form.key());
        return Answers.see(next);
      } catch (Refusal refusal) {
        form.refused(refusal);
      } catch (Stale stale) {
        form.fail("", stale.getMessage());
        status = 409;
      }
    }
    return Answers.page(form.isBad() ? status : 200, recordPage(id, form));
  }

  private TemplateInstance recordPage(UUID id, Form form) {
    ComplianceView.Record record = records.record(viewer, id);
    boolean mayCorrect =
        record.line().stands() && viewer.isAny(Role.OWNER, Role.CONTROLLER, Role.ENGINEER);
    return new CompliancePage(record, form, mayCorrect);
  }

  private String recordLink(ComplianceLine line) {
    return views.link(
        line.requirementId(),
        line.componentId() == null ? line.aircraftId() : null,
        line.componentId());
  }
}
