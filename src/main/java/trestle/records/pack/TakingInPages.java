package trestle.records.pack;

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
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.StandardCopyOption;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import trestle.formats.Base32;
import trestle.ledger.SignedHead;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.Form;
import trestle.web.Role;
import trestle.web.Shown;
import trestle.web.Upload;
import trestle.web.Viewer;

/** Taking in the record that another operator handed over. */
@Path("/record-packs")
@RequestScoped
public class TakingInPages {
  /** Lines of one kind that a page shows. */
  private static final int MOST = 200;

  @Inject TakingIn takingIn;
  @Inject TakenPacks taken;
  @Inject Viewer viewer;

  /** A kind of record with how many there are. */
  record Count(String kind, String words, long number, long filed) {}

  /**
   * A line as it came.
   *
   * @param holds whether it still leads to the head that was signed
   */
  record Came(long seq, String by, String at, String json, boolean holds) {}

  @CheckedTemplate(basePath = "records", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record RecordPackList(Form form, List<TakenSheet> packs, boolean mayTakeIn, int megabytes)
      implements TemplateInstance {}

  @CheckedTemplate(basePath = "records", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record PackPreview(
      Form form,
      UUID id,
      TakingIn.Preview preview,
      String made,
      String key,
      List<Count> filed,
      List<Count> kept)
      implements TemplateInstance {}

  @CheckedTemplate(basePath = "records", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record PackTaken(
      TakenSheet pack, String reached, String key, List<Count> kinds, String kind, List<Came> lines)
      implements TemplateInstance {}

  @GET
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.AUDITOR})
  public Response list() {
    return Answers.page(listed(Form.blank()));
  }

  @POST
  @Consumes({MediaType.MULTIPART_FORM_DATA, MediaType.APPLICATION_FORM_URLENCODED})
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER})
  public Response upload() {
    Upload sent = Upload.ofRequest();
    Form form = Form.of(sent.fields());
    List<Upload.File> files = sent.files(TakingIn.FIELD);
    if (files.isEmpty()) {
      form.fail(TakingIn.FIELD, "Record pack is needed: choose the ZIP file.");
    }
    return Answers.filing(
        form, () -> "/record-packs/uploads/" + keep(files.get(0)), () -> listed(form));
  }

  private UUID keep(Upload.File sent) {
    try {
      java.nio.file.Path file = Files.createTempFile("taken-pack-", ".zip");
      try (InputStream in = sent.open()) {
        Files.copy(in, file, StandardCopyOption.REPLACE_EXISTING);
        return takingIn.uploaded(viewer, file);
      } finally {
        Files.deleteIfExists(file);
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private RecordPackList listed(Form form) {
    return new RecordPackList(
        form,
        taken.all(viewer),
        viewer.isAny(Role.OWNER, Role.CONTROLLER),
        Upload.MOST_BYTES >> 20);
  }

  @GET
  @Path("uploads/{upload}")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER})
  public Response preview(@PathParam("upload") UUID upload) {
    return Answers.page(previewed(Form.blank(), upload));
  }

  @POST
  @Path("uploads/{upload}/taking-in")
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER})
  public Response takeIn(@PathParam("upload") UUID upload, MultivaluedMap<String, String> posted) {
    Form form = Form.of(posted);
    return Answers.filing(
        form,
        () -> "/record-packs/" + takingIn.takeIn(viewer, upload),
        () -> previewed(form, upload));
  }

  @POST
  @Path("uploads/{upload}/setting-aside")
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER})
  public Response setAside(
      @PathParam("upload") UUID upload, MultivaluedMap<String, String> posted) {
    takingIn.setAside(viewer, upload);
    return Answers.see("/record-packs");
  }

  private PackPreview previewed(Form form, UUID upload) {
    TakingIn.Preview preview = takingIn.preview(viewer, upload);
    SignedHead head = preview.pack().head();
    return new PackPreview(
        form,
        upload,
        preview,
        Shown.moment(head.at(), viewer.zone()),
        grouped(Base32.of(head.publicKey())),
        counts(preview.filed()),
        counts(preview.kept()));
  }

  private static List<Count> counts(Map<String, Integer> kinds) {
    return kinds.entrySet().stream()
        .map(one -> new Count(one.getKey(), words(one.getKey()), one.getValue(), 0))
        .toList();
  }

  @GET
  @Path("{id}")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.AUDITOR})
  public Response one(@PathParam("id") UUID id, @QueryParam("kind") String kind) {
    TakenSheet pack = taken.one(viewer, id);
    SignedHead head = SignedHead.parse(pack.head());
    String asked = kind == null ? "" : kind;
    return Answers.page(
        new PackTaken(
            pack,
            Shown.moment(head.at(), viewer.zone()),
            grouped(Base32.of(head.publicKey())),
            taken.kinds(viewer, id).stream()
                .map(one -> new Count(one.kind(), words(one.kind()), one.lines(), one.filed()))
                .toList(),
            asked,
            asked.isEmpty()
                ? List.of()
                : taken.kept(viewer, id, asked, 0, MOST).stream()
                    .map(line -> came(line, head))
                    .toList()));
  }

  private Came came(TakenRepository.Kept line, SignedHead head) {
    return new Came(
        line.seq(),
        line.recordedBy(),
        Shown.moment(line.recordedAt(), viewer.zone()),
        line.json(),
        line.leadsTo(head));
  }

  private static String words(String kind) {
    String words = kind.replace('-', ' ');
    return words.substring(0, 1).toUpperCase(java.util.Locale.ROOT) + words.substring(1);
  }

  /** In fours, as people read it to each other. */
  private static String grouped(String key) {
    return key.replaceAll("(.{4})(?!$)", "$1 ");
  }
}
