package trestle.people;

import static io.restassured.RestAssured.given;

import io.restassured.http.Cookies;
import io.restassured.response.Response;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Somebody at a browser without JavaScript: keeps cookies, sends the token a page carried. */
public final class Visitor {
  private static final Pattern TOKEN = Pattern.compile("name=\"csrf-token\" value=\"([^\"]+)\"");

  private final Map<String, String> cookies = new LinkedHashMap<>();
  private String token;

  /** Somebody who has just opened the sign-in page. */
  public static Visitor atTheDoor() {
    Visitor visitor = new Visitor();
    visitor.get("/sign-in");
    return visitor;
  }

  /** Somebody signed in; fails where the name or password is not right. */
  public static Visitor signedIn(String name, String password) {
    Visitor visitor = atTheDoor();
    Response answer = visitor.post("/sign-in", Map.of("name", name, "password", password));
    if (answer.statusCode() != 303) {
      throw new AssertionError("Not signed in: " + answer.statusCode() + answer.asString());
    }
    return visitor;
  }

  public Response get(String path) {
    return kept(given().cookies(cookies).redirects().follow(false).get(path));
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
            .post(path));
  }

  /**
   * Fills in the form of a page and sends it as a browser does: to the address in the page, with
   * every field as the page has it unless given here. Boxes are ticked only when given.
   *
   * @param sends the end of the form's address, which tells it from the page's others
   */
  public Response fillIn(String page, String sends, Map<String, ?> fields) {
    String html = get(page).asString();
    Matcher form =
        Pattern.compile(
                "<form method=\"post\" action=\"([^\"]*" + Pattern.quote(sends) + ")\".*?</form>",
                Pattern.DOTALL)
            .matcher(html);
    if (!form.find()) {
      throw new AssertionError("No form on " + page + " is sent to …" + sends + "\n" + html);
    }
    Map<String, Object> all = asShown(form.group());
    all.putAll(fields);
    return post(form.group(1), all);
  }

  private static Map<String, Object> asShown(String form) {
    Map<String, Object> shown = new LinkedHashMap<>();
    Matcher inputs = Pattern.compile("<(?:input|textarea|select)[^>]*>").matcher(form);
    while (inputs.find()) {
      String input = inputs.group();
      if (!input.contains("\"checkbox\"")
          && (!input.contains("\"radio\"") || input.contains(" checked"))) {
        attribute(input, "name")
            .ifPresent(name -> shown.put(name, attribute(input, "value").orElse("")));
      }
    }
    return shown;
  }

  private static Optional<String> attribute(String input, String name) {
    Matcher found = Pattern.compile(" " + name + "=\"([^\"]*)\"").matcher(input);
    return found.find() ? Optional.of(found.group(1)) : Optional.empty();
  }

  /** Forgets being signed in, as a browser does when the cookie's time is over. */
  public Visitor withoutSession() {
    cookies.remove("trestle-session");
    return this;
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
