package trestle.web;

import io.quarkus.qute.RawString;
import jakarta.annotation.security.PermitAll;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Named;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.core.Response;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.Base64;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

/**
 * The files a page is shown with: style, script, fonts, icons. Each stands under a path with the
 * hash of its content, so a browser keeps it for good and never shows a page with yesterday's
 * style. Templates name one as {@code {inject:assets.css}}. A form for the apron carries the style
 * within its page, so that on a poor link it needs no second answer before it is drawn.
 */
@Named("assets")
@ApplicationScoped
@Path("/assets/{hash}/{file}")
public class Assets {
  private static final String FOR_GOOD = "public, max-age=31536000, immutable";
  private static final String ICON = "icon.svg";
  private static final String TEXT_FONT = "atkinson-hyperlegible-next-latin-wght-normal.woff2";
  private static final String MARK_FONT = "atkinson-hyperlegible-mono-latin-400-normal.woff2";
  private static final String CSS = "trestle.css";
  private static final String SCRIPT = "outbox.js";
  private static final List<String> PICTURES =
      List.of("icon-180.png", "icon-192.png", "icon-512.png");

  private static final String STYLE = "<style>";
  private static final Pattern COMMENT = Pattern.compile("/\\*.*?\\*/", Pattern.DOTALL);

  private record Asset(byte[] content, String type, String hash, String path) {}

  private final Map<String, Asset> assets = new LinkedHashMap<>();
  private final String release;
  private final String styleWithin;
  private final String styleSource;

  Assets() {
    add(ICON, "image/svg+xml", read(ICON));
    add(TEXT_FONT, "font/woff2", read(TEXT_FONT));
    add(MARK_FONT, "font/woff2", read(MARK_FONT));
    add("FONT-LICENSE.txt", "text/plain;charset=UTF-8", read("FONT-LICENSE.txt"));
    add(CSS, "text/css;charset=UTF-8", styleSheet());
    add(SCRIPT, "text/javascript;charset=UTF-8", scriptText());
    PICTURES.forEach(picture -> add(picture, "image/png", read(picture)));
    release = hash(String.join(" ", paths()).getBytes(StandardCharsets.UTF_8));
    styleWithin = styleOfOnePage();
    styleSource =
        "'sha256-"
            + Base64.getEncoder()
                .encodeToString(sha256(styleWithin.getBytes(StandardCharsets.UTF_8)))
            + "'";
  }

  public String css() {
    return path(CSS);
  }

  /** The whole style for within a page, which then asks for no other: see decision 16. */
  public RawString styleWithin() {
    return new RawString(STYLE + styleWithin + "</style>");
  }

  /** How the content security policy names that style. */
  String styleSource() {
    return styleSource;
  }

  /** Whether a page carries its style within. */
  static boolean isStyledWithin(String html) {
    int style = html.indexOf(STYLE);
    return style >= 0 && style < html.indexOf("</head>");
  }

  public String icon() {
    return path(ICON);
  }

  public String script() {
    return path(SCRIPT);
  }

  /** A header by which a slow phone asks for style and script while it still reads the page. */
  String neededFirst(boolean styledWithin) {
    String first = "<" + script() + ">; rel=preload; as=script";
    return styledWithin ? first : "<" + css() + ">; rel=preload; as=style, " + first;
  }

  public String icon(int pixels) {
    return path("icon-" + pixels + ".png");
  }

  /** The paths of all files: what a page may need. */
  public List<String> paths() {
    return assets.values().stream().map(Asset::path).toList();
  }

  /** Changes when any of the files does. */
  public String release() {
    return release;
  }

  private String path(String name) {
    return assets.get(name).path();
  }

  @GET
  @PermitAll
  public Response file(@PathParam("hash") String hash, @PathParam("file") String file) {
    Asset asset = assets.get(file);
    if (asset == null) {
      throw new NotHere("There is no such file.");
    }
    boolean same = asset.hash().equals(hash);
    return Response.ok(asset.content(), asset.type())
        .header("Cache-Control", same ? FOR_GOOD : "no-cache")
        .build();
  }

  private void add(String name, String type, byte[] content) {
    String hash = hash(content);
    assets.put(name, new Asset(content, type, hash, "/assets/" + hash + "/" + name));
  }

  /** The style sheet, with the names of the fonts made into their paths. */
  private byte[] styleSheet() {
    String text = new String(read(CSS), StandardCharsets.UTF_8);
    for (String font : new String[] {TEXT_FONT, MARK_FONT}) {
      text = text.replace("url(" + font + ")", "url(" + assets.get(font).path() + ")");
    }
    return bare(COMMENT.matcher(text).replaceAll("")).getBytes(StandardCharsets.UTF_8);
  }

  /**
   * Fonts that are not there at once are used from the next page on: letters that change under the
   * finger of somebody who types would lay out the page a second time.
   */
  private String styleOfOnePage() {
    return new String(assets.get(CSS).content(), StandardCharsets.UTF_8)
        .replace("font-display: swap", "font-display: optional");
  }

  /** The script without its comments and indents, which a phone has no use for. */
  private static byte[] scriptText() {
    String code =
        new String(read(SCRIPT), StandardCharsets.UTF_8)
            .lines()
            .filter(line -> !line.strip().matches("(//|/\\*|\\*[ /]|\\*$).*"))
            .collect(Collectors.joining("\n"));
    return bare(code).getBytes(StandardCharsets.UTF_8);
  }

  /** Without indents and empty lines. */
  private static String bare(String text) {
    return text.lines()
        .map(String::strip)
        .filter(line -> !line.isEmpty())
        .collect(Collectors.joining("\n"));
  }

  private static byte[] read(String name) {
    try (InputStream in = Assets.class.getResourceAsStream("/assets/" + name)) {
      return in.readAllBytes();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static String hash(byte[] content) {
    return HexFormat.of().formatHex(sha256(content), 0, 6);
  }

  private static byte[] sha256(byte[] content) {
    try {
      return MessageDigest.getInstance("SHA-256").digest(content);
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException(e);
    }
  }
}
