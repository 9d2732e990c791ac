package trestle.web;

import io.quarkus.vertx.http.runtime.CurrentVertxRequest;
import io.vertx.core.http.Cookie;
import io.vertx.core.http.CookieSameSite;
import io.vertx.ext.web.RoutingContext;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.inject.Named;
import java.nio.charset.StandardCharsets;
import java.security.GeneralSecurityException;
import java.security.MessageDigest;
import java.security.SecureRandom;
import java.time.Duration;
import java.util.Base64;
import javax.crypto.Mac;
import javax.crypto.spec.SecretKeySpec;
import org.eclipse.microprofile.config.inject.ConfigProperty;

/**
 * The token that each form carries against forged requests: the browser's random cookie, signed
 * with the installation's key. It is the same on every page of a browser and on every node, so
 * forms in several windows don't disturb each other. The cookie is given with the first form.
 */
@Named("csrf")
@ApplicationScoped
public class FormToken {
  static final String FIELD = "csrf-token";

  private static final String COOKIE = "trestle-form";
  private static final String GIVEN = "trestle.form-cookie";
  private static final String RANDOM = "[A-Za-z0-9_-]{22}";
  private static final Duration AGE = Duration.ofDays(30);

  private final SecureRandom random = new SecureRandom();

  @Inject CurrentVertxRequest request;

  @ConfigProperty(name = "trestle.csrf.key")
  String key;

  public String parameterName() {
    return FIELD;
  }

  /** The token of this request's browser, or null outside of a request. */
  public String token() {
    RoutingContext current = request.getCurrent();
    if (current == null) {
      return null;
    }
    String cookie = cookie(current);
    return signed(cookie == null ? give(current) : cookie);
  }

  /** Whether a form that this browser sent came from a page it was given. */
  boolean isRight(RoutingContext current, String sent) {
    String cookie = cookie(current);
    return cookie != null
        && sent != null
        && MessageDigest.isEqual(bytes(sent), bytes(signed(cookie)));
  }

  private static String cookie(RoutingContext current) {
    String given = current.get(GIVEN);
    if (given != null) {
      return given;
    }
    Cookie cookie = current.request().getCookie(name(current));
    return cookie == null || !cookie.getValue().matches(RANDOM) ? null : cookie.getValue();
  }

  private String give(RoutingContext current) {
    byte[] bits = new byte[16];
    random.nextBytes(bits);
    String value = base64(bits);
    current.put(GIVEN, value);
    current
        .response()
        .addCookie(
            Cookie.cookie(name(current), value)
                .setHttpOnly(true)
                .setSecure(current.request().isSSL())
                .setSameSite(CookieSameSite.LAX)
                .setMaxAge(AGE.toSeconds())
                .setPath("/"));
    return value;
  }

  /** Over TLS the name forbids other hosts of the domain to plant the cookie. */
  private static String name(RoutingContext current) {
    return current.request().isSSL() ? "__Host-" + COOKIE : COOKIE;
  }

  private String signed(String cookie) {
    try {
      Mac mac = Mac.getInstance("HmacSHA256");
      mac.init(new SecretKeySpec(bytes(key), "HmacSHA256"));
      return base64(mac.doFinal(bytes(cookie)));
    } catch (GeneralSecurityException e) {
      throw new IllegalStateException(e);
    }
  }

  private static byte[] bytes(String text) {
    return text.getBytes(StandardCharsets.UTF_8);
  }

  private static String base64(byte[] bytes) {
    return Base64.getUrlEncoder().withoutPadding().encodeToString(bytes);
  }
}
