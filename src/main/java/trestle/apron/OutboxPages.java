package trestle.apron;

import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import jakarta.annotation.security.PermitAll;
import jakarta.annotation.security.RolesAllowed;
import jakarta.enterprise.context.RequestScoped;
import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.Response;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import trestle.fleet.AircraftSheet;
import trestle.formats.Json;
import trestle.formats.JsonText;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.Assets;
import trestle.web.FormToken;
import trestle.web.OutboxJson;
import trestle.web.Viewer;

/**
 * What a phone needs to go on without a signal: the page of its outbox, who is signed in when it
 * sends, which pages to keep, the service worker, and what it takes to be installed.
 */
@Path("/")
@RequestScoped
public class OutboxPages {
  /** A browser asks for it each time, so that a release is noticed. */
  private static final String ASK_EACH_TIME = "no-cache";

  private static final String WORKER = read("/apron/sw.js");

  @Inject Apron apron;
  @Inject Assets assets;
  @Inject FormToken token;
  @Inject Viewer viewer;

  @CheckedTemplate(
      basePath = "apron",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record Outbox() implements TemplateInstance {}

  @GET
  @Path("outbox")
  @PermitAll
  public Response outbox() {
    return Answers.page(new Outbox());
  }

  /** Whose session the phone holds, and the token its next sending must carry. */
  @GET
  @Path("outbox/sender")
  @PermitAll
  public Response sender() {
    Json.Builder json = Json.object().put("token", token.token());
    json.put("person", text(viewer.personId())).put("operator", text(viewer.operatorId()));
    return OutboxJson.answer(json.build());
  }

  /**
   * The pages to keep: those of each aircraft that the viewer is likely to fly, and those for a
   * defect or an event without a flight.
   *
   * @param opened aircraft whose pages were opened on the phone, the last one first
   */
  @GET
  @Path("outbox/pages")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER})
  public Response pages(@QueryParam("opened") List<String> opened) {
    List<Json> pages = new ArrayList<>();
    for (AircraftSheet sheet : apron.likelyToFly(viewer, opened)) {
      String aircraft = "/aircraft/" + sheet.id();
      pages.add(page(aircraft + "/reports/new", "Report a flight of " + sheet.registration()));
      pages.add(page(aircraft + "/pre-flight", "Before you take " + sheet.registration()));
    }
    pages.add(page("/defects/new", "Report a defect found on the ground"));
    pages.add(page("/abnormal-events/new", "Report an abnormal event"));
    return OutboxJson.answer(Json.object().put("pages", new Json.Arr(pages)).build());
  }

  @GET
  @Path("sw.js")
  @PermitAll
  public Response serviceWorker() {
    Json files = new Json.Arr(assets.paths().stream().map(Json::of).toList());
    String release =
        "const RELEASE = '%s', OUTBOX = '%s', ASSETS = %s;%n"
            .formatted(assets.release(), assets.script(), JsonText.write(files));
    return Response.ok(release + WORKER, "text/javascript;charset=UTF-8")
        .header("Cache-Control", ASK_EACH_TIME)
        .build();
  }

  @GET
  @Path("manifest.webmanifest")
  @PermitAll
  public Response manifest() {
    Json manifest =
        Json.object()
            .put("id", "/")
            .put("name", "Trestle")
            .put("short_name", "Trestle")
            .put("description", "Flights and defects, reported with or without a signal")
            .put("start_url", "/outbox")
            .put("scope", "/")
            .put("display", "standalone")
            .put("background_color", "#fbfaf6")
            .put("theme_color", "#fbfaf6")
            .put("icons", new Json.Arr(List.of(icon(192), icon(512))))
            .build();
    return Response.ok(JsonText.write(manifest), "application/manifest+json;charset=UTF-8")
        .header("Cache-Control", ASK_EACH_TIME)
        .build();
  }

  private Json icon(int pixels) {
    return Json.object()
        .put("src", assets.icon(pixels))
        .put("sizes", pixels + "x" + pixels)
        .put("type", "image/png")
        .put("purpose", "any maskable")
        .build();
  }

  private static Json page(String href, String label) {
    return Json.object().put("href", href).put("label", label).build();
  }

  private static String text(Object value) {
    return value == null ? null : value.toString();
  }

  private static String read(String name) {
    try (InputStream in = OutboxPages.class.getResourceAsStream(name)) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
