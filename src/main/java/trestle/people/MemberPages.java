package trestle.people;

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
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Stream;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.Form;
import trestle.web.Option;
import trestle.web.Refusal;
import trestle.web.Role;
import trestle.web.Viewer;

/** Who works here, as what, under which licence. */
@Path("/members")
@RequestScoped
public class MemberPages {
  static final List<Option> ROLES =
      List.of(
          new Option("owner", "Owner", "plans, sees everything, looks after members"),
          new Option("controller", "Controller", "keeps the records complete, transcribes papers"),
          new Option("pilot", "Pilot", "files flights"),
          new Option("engineer", "Engineer", "certifies work, under a licence"),
          new Option("auditor", "Auditor", "reads everything, files nothing"));
  private static final List<String> WORDS = Stream.of(Role.values()).map(Role::word).toList();

  @Inject Members members;
  @Inject InstantSource clock;
  @Inject Viewer viewer;

  @CheckedTemplate(
      basePath = "people",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record MemberList(List<Members.Member> members, LocalDate today, boolean mayChange)
      implements TemplateInstance {}

  @CheckedTemplate(
      basePath = "people",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record MemberNew(Form form, List<Option> roles) implements TemplateInstance {}

  @CheckedTemplate(
      basePath = "people",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record MemberWelcome(String name, Members.Welcome welcome) implements TemplateInstance {}

  @CheckedTemplate(
      basePath = "people",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record MemberPage(
      Members.Member member, Form roles, Form licence, List<Option> allRoles, LocalDate today)
      implements TemplateInstance {}

  @GET
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response all() {
    return Answers.page(
        new MemberList(members.all(viewer), today(), viewer.isAny(Role.OWNER, Role.CONTROLLER)));
  }

  @GET
  @Path("new")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER})
  public Response ask() {
    return Answers.page(new MemberNew(Form.blank(), ROLES));
  }

  @POST
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER})
  public Response takeIn(MultivaluedMap<String, String> posted) {
    Form form = Form.of(posted);
    String name = form.required("name", "Name").text(120);
    String signInName = form.required("sign-in-name", "Sign-in name").text(120);
    Set<Role> roles = roles(form, true);
    if (form.isReady()) {
      try {
        Members.Welcome welcome = members.takeIn(viewer, name, signInName, roles, form.key());
        return Answers.page(new MemberWelcome(name, welcome));
      } catch (Refusal refusal) {
        form.refused(refusal);
      }
    }
    return Answers.again(form, new MemberNew(form, ROLES));
  }

  @GET
  @Path("{id}")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER})
  public Response one(@PathParam("id") UUID id) {
    return Answers.page(page(id, null, Form.blank()));
  }

  @POST
  @Path("{id}/roles")
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER})
  public Response setRoles(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    Form form = Form.of(posted);
    Set<Role> roles = roles(form, false);
    String reason = form.required("reason", "Reason").text(500);
    if (form.isReady()) {
      try {
        members.setRoles(viewer, id, roles, reason, form.key());
        return Answers.see("/members/" + id);
      } catch (Refusal refusal) {
        form.refused(refusal);
      }
    }
    return Answers.again(form, page(id, form, Form.blank()));
  }

  @POST
  @Path("{id}/shut-out")
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER})
  public Response shutOut(@PathParam("id") UUID id) {
    members.shutOut(viewer, id);
    return Answers.see("/members/" + id);
  }

  @POST
  @Path("{id}/licences")
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER})
  public Response addLicence(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    Form form = Form.of(posted);
    String number = form.required("number", "Number").text(60);
    String kind = form.required("kind", "Kind of licence").text(120);
    String ratings = form.optional("ratings", "Ratings").text(500);
    String authorisation = form.optional("authorisation", "Company authorisation").text(500);
    LocalDate expires = form.optional("expires-on", "Expires on").date();
    if (form.isReady()) {
      members.addLicence(
          viewer,
          id,
          new Members.NewLicence(
              number, kind, blankIfNull(ratings), blankIfNull(authorisation), expires),
          form.key());
      return Answers.see("/members/" + id);
    }
    return Answers.again(form, page(id, null, form));
  }

  private TemplateInstance page(UUID id, Form roles, Form licence) {
    Members.Member member = members.one(viewer, id);
    Form shown =
        roles != null
            ? roles
            : Form.blank().withAll("roles", member.roles().stream().map(Role::word).toList());
    return new MemberPage(member, shown, licence, ROLES, today());
  }

  private static Set<Role> roles(Form form, boolean required) {
    var field = required ? form.required("roles", "Roles") : form.optional("roles", "Roles");
    Set<Role> roles = EnumSet.noneOf(Role.class);
    field.choices(WORDS).forEach(word -> roles.add(Role.parse(word)));
    return roles;
  }

  private static String blankIfNull(String text) {
    return text == null ? "" : text;
  }

  private LocalDate today() {
    return viewer.dateOf(clock.instant());
  }
}
