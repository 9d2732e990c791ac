package trestle.records.pack;

import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import jakarta.annotation.security.RolesAllowed;
import jakarta.enterprise.context.RequestScoped;
import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.core.Response;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.util.List;
import java.util.UUID;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.Viewer;

/** The record pack of an aircraft: what is in it, and the ZIP; likewise a component's. */
@Path("/")
@RequestScoped
public class RecordPackPages {
  @Inject RecordPacks packs;
  @Inject TakenPacks taken;
  @Inject Viewer viewer;

  @CheckedTemplate(basePath = "records", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record RecordPack(RecordPacks.Contents pack, String megabytes, List<TakenSheet> taken)
      implements TemplateInstance {}

  @GET
  @Path("aircraft/{id}/record-pack")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.AUDITOR})
  public Response ofAircraft(@PathParam("id") UUID id) {
    return page(PackSubject.aircraft(id));
  }

  @GET
  @Path("aircraft/{id}/record-pack.zip")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.AUDITOR})
  public Response zipOfAircraft(@PathParam("id") UUID id) {
    return zip(PackSubject.aircraft(id));
  }

  Response page(PackSubject subject) {
    RecordPacks.Contents pack = packs.contents(viewer, subject);
    return Answers.page(new RecordPack(pack, megabytes(pack.bytes()), taken.of(viewer, subject)));
  }

  /** Rounded up to a tenth. */
  static String megabytes(long bytes) {
    long tenths = (bytes + 99_999) / 100_000;
    return tenths / 10 + "." + tenths % 10;
  }

  /** Made as a whole first, so that what goes wrong is an error page and no half of a file. */
  Response zip(PackSubject subject) {
    java.nio.file.Path file = packs.made(viewer, subject);
    try {
      long bytes = Files.size(file);
      var in = Files.newInputStream(file);
      // The open file is read to its end; nobody else finds it.
      Files.delete(file);
      return Response.ok(in)
          .type("application/zip")
          .header("Content-Length", bytes)
          .header("Content-Disposition", "attachment; filename=\"" + name(subject) + "\"")
          .build();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private String name(PackSubject subject) {
    return packs.words(viewer, subject).replaceAll("[^A-Za-z0-9-]+", "-") + "-record.zip";
  }
}
