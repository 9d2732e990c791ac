package trestle.people;

import static io.restassured.RestAssured.given;

import io.restassured.RestAssured;
import io.restassured.builder.MultiPartSpecBuilder;
import io.restassured.config.DecoderConfig;
import io.restassured.config.RestAssuredConfig;
import io.restassured.http.Cookies;
import io.restassured.response.Response;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Somebody at a browser without JavaScript: keeps cookies, sends the token a page carried. */
public final class Visitor {
  private static final Pattern FORM =
      Pattern.compile(
          "<form method=\"post\"(?: action=\"([^\"]*)\")?[^>]*>.*?</form>", Pattern.DOTALL);
  private static final Pattern CONTROL =
      Pattern.compile(
          "<input[^>]*>|<textarea[^>]*>.*?</textarea>|<select[^>]*>.*?</select>", Pattern.DOTALL);
  private static final Pattern TOKEN = Pattern.compile("name=\"csrf-token\" value=\"([^\"]+)\"");

  private final String server;
  private final Map<String, String> cookies = new LinkedHashMap<>();
  private String token;

  private Visitor(String server) {
    this.server = server;
  }

  /** Somebody who has just opened the sign-in page. */
  public static Visitor atTheDoor() {
    return atTheDoorOf("");
  }

  /** The same at the application that answers at an address: "http://127.0.0.1:8080". */
  public static Visitor atTheDoorOf(String server) {
    Visitor visitor = new Visitor(server);
    visitor.get("/sign-in");
    return visitor;
  }

  /** Somebody signed in; fails where the name or password is not right. */
  public static Visitor signedIn(String name, String password) {
    return atTheDoor().signIn(name, password);
  }

  public Visitor signIn(String name, String password) {
    Visitor visitor = this;
    Response answer = visitor.post("/sign-in", Map.of("name", name, "password", password));
    if (answer.statusCode() != 303) {
      throw new AssertionError("Not signed in: " + answer.statusCode() + answer.asString());
    }
    return visitor;
  }

  public Response get(String path) {
    return kept(given().cookies(cookies).redirects().follow(false).get(server + path));
  }

  /** As a browser gets it that takes nothing packed. */
  public Response getUnpacked(String path) {
    RestAssuredConfig plain =
        RestAssured.config().decoderConfig(DecoderConfig.decoderConfig().noContentDecoders());
    return given()
        .config(plain)
        .cookies(cookies)
        .header("Accept-Encoding", "identity")
        .get(server + path);
  }

  public Response post(String path, Map<String, ?> fields) {
    Map<String, Object> all = new LinkedHashMap<>(fields);
    all.put("csrf-token", token);
    return kept(
        given()
            .cookies(cookies)
            .redirects()
            .follow(false)
            .contentType("application/x-www-form-urlencoded; charset=UTF-8")
            .formParams(all)
            .post(server + path));
  }

  /** Sends a form as a script does that wants its answer as JSON. */
  public Response postForJson(String path, Map<String, ?> fields) {
    Map<String, Object> all = new LinkedHashMap<>(fields);
    all.put("csrf-token", token);
    return kept(
        given()
            .cookies(cookies)
            .redirects()
            .follow(false)
            .accept("application/json")
            .contentType("application/x-www-form-urlencoded; charset=UTF-8")
            .formParams(all)
            .post(server + path));
  }

  /** A form as a browser would send it. */
  public record Filled(String action, Map<String, Object> fields) {
    /** The same with one field filled in otherwise. */
    public Filled but(String field, Object value) {
      Map<String, Object> other = new LinkedHashMap<>(fields);
      other.put(field, value);
      return new Filled(action, other);
    }
  }

  /**
   * Fills in the form of a page and sends it as a browser does: to the address in the page, with
   * every field as the page has it unless given here.
   *
   * @param sends the end of the form's address, which tells it from the page's others
   */
  public Response fillIn(String page, String sends, Map<String, ?> fields) {
    return send(filled(page, sends, fields));
  }

  /** A file chosen in a file field. */
  public record Chosen(String field, String name, byte[] bytes, String type) {}

  /** Sends a form with files as a browser does. */
  public Response upload(String path, Map<String, ?> fields, List<Chosen> files) {
    return uploadWithToken(token, path, fields, files);
  }

  /** The same, with a token that may be another's or none at all. */
  public Response uploadWithToken(
      String token, String path, Map<String, ?> fields, List<Chosen> files) {
    var request = given().cookies(cookies).redirects().follow(false);
    Map<String, Object> all = new LinkedHashMap<>(fields);
    all.put("csrf-token", token);
    all.forEach(
        (name, value) ->
            request.multiPart(
                new MultiPartSpecBuilder(value.toString())
                    .controlName(name)
                    .charset("UTF-8")
                    .build()));
    files.forEach(file -> request.multiPart(file.field(), file.name(), file.bytes(), file.type()));
    return kept(request.post(server + path));
  }

  public Response send(Filled filled) {
    return post(filled.action, filled.fields);
  }

  /** The form of a page filled in, not sent. */
  public Filled filled(String page, String sends, Map<String, ?> fields) {
    return filledIn(get(page).asString(), page, sends, fields);
  }

  /**
   * The form in a page's text, filled in.
   *
   * @param address where the text was got, and where a form without an address of its own goes
   */
  public static Filled filledIn(String html, String address, String sends, Map<String, ?> fields) {
    Matcher forms = FORM.matcher(html);
    while (forms.find()) {
      String action = forms.group(1) == null ? address : forms.group(1);
      if (action.endsWith(sends)) {
        Map<String, Object> all = asShown(forms.group());
        fields.forEach(
            (name, value) -> {
              if (!forms.group().contains(" name=\"" + name + "\"")) {
                throw new AssertionError("No field " + name + " on " + address);
              }
              all.put(name, value);
            });
        return new Filled(action, all);
      }
    }
    throw new AssertionError("No form on " + address + " is sent to …" + sends + "\n" + html);
  }

  /** What a browser would send of a form that nobody touched. */
  private static Map<String, Object> asShown(String form) {
    Map<String, List<String>> shown = new LinkedHashMap<>();
    Matcher controls = CONTROL.matcher(form);
    while (controls.find()) {
      String control = controls.group();
      attribute(control, "name")
          .filter(name -> !name.equals("csrf-token"))
          .ifPresent(
              name ->
                  value(control)
                      .ifPresent(
                          value -> shown.computeIfAbsent(name, n -> new ArrayList<>()).add(value)));
    }
    Map<String, Object> fields = new LinkedHashMap<>();
    shown.forEach((name, all) -> fields.put(name, all.size() == 1 ? all.get(0) : all));
    return fields;
  }

  private static Optional<String> value(String control) {
    if (control.startsWith("<textarea")) {
      String text = control.replaceAll("(?s)^<textarea[^>]*>\\r?\\n?|</textarea>$", "");
      return Optional.of(unescaped(text));
    }
    if (control.startsWith("<select")) {
      List<String> options =
          Pattern.compile("<option[^>]*>").matcher(control).results().map(o -> o.group()).toList();
      return options.stream()
          .filter(option -> option.contains(" selected"))
          .findFirst()
          .or(() -> options.stream().findFirst())
          .flatMap(option -> attribute(option, "value"));
    }
    boolean box = control.contains("\"checkbox\"") || control.contains("\"radio\"");
    return box && !control.contains(" checked")
        ? Optional.empty()
        : Optional.of(attribute(control, "value").orElse(""));
  }

  private static Optional<String> attribute(String tag, String name) {
    Matcher found = Pattern.compile("^<[^>]*? " + name + "=\"([^\"]*)\"").matcher(tag);
    return found.find() ? Optional.of(unescaped(found.group(1))) : Optional.empty();
  }

  private static String unescaped(String html) {
    return html.replace("&lt;", "<")
        .replace("&gt;", ">")
        .replace("&quot;", "\"")
        .replace("&#39;", "'")
        .replace("&amp;", "&");
  }

  /** Forgets being signed in, as a browser does when the cookie's time is over. */
  public Visitor withoutSession() {
    cookies.remove("trestle-session");
    return this;
  }

  /** Where an answer leads to, as a path. */
  public static String leadsTo(Response answer) {
    String location = answer.header("Location");
    if (location == null) {
      throw new AssertionError("Leads nowhere: " + answer.statusCode() + answer.asString());
    }
    return location.replaceAll("^https?://[^/]+", "");
  }

  /** Takes over the session somebody else's browser holds. */
  public Visitor withSessionOf(Visitor other) {
    cookies.put("trestle-session", other.cookies.get("trestle-session"));
    return this;
  }

  private Response kept(Response answer) {
    Cookies given = answer.detailedCookies();
    given.forEach(
        cookie -> {
          if (cookie.getMaxAge() == 0) {
            cookies.remove(cookie.getName());
          } else {
            cookies.put(cookie.getName(), cookie.getValue());
          }
        });
    Matcher carried = TOKEN.matcher(answer.asString());
    if (carried.find()) {
      token = carried.group(1);
    }
    return answer;
  }

  static List<String> hidden(String page, String name) {
    return Pattern.compile("name=\"" + Pattern.quote(name) + "\" value=\"([^\"]*)\"")
        .matcher(page)
        .results()
        .map(found -> found.group(1))
        .toList();
  }
}
