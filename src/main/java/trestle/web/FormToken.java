package trestle.web;

import io.quarkus.csrf.reactive.runtime.CsrfTokenUtils;
import io.quarkus.vertx.http.runtime.CurrentVertxRequest;
import io.vertx.core.http.Cookie;
import io.vertx.ext.web.RoutingContext;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.inject.Named;
import java.security.SecureRandom;
import java.util.Base64;
import org.eclipse.microprofile.config.inject.ConfigProperty;

/**
 * The token which each form carries against forged requests, in templates {@code
 * inject:formToken.value}. Quarkus gives and checks it; this also gives one where Quarkus gives
 * none, on the page that answers a form with an outdated token.
 */
@Named("formToken")
@ApplicationScoped
public class FormToken {
  static final String FIELD = "csrf-token";

  /** Where Quarkus keeps the token of a request. */
  private static final String OF_REQUEST = "csrf_token";

  private final SecureRandom random = new SecureRandom();

  @Inject CurrentVertxRequest request;

  @ConfigProperty(name = "quarkus.rest-csrf.token-signature-key")
  String key;

  @ConfigProperty(name = "quarkus.rest-csrf.cookie-name")
  String cookieName;

  @ConfigProperty(name = "quarkus.rest-csrf.cookie-max-age")
  java.time.Duration cookieAge;

  public String field() {
    return FIELD;
  }

  /** The token of this request, or null where it has none. */
  public String value() {
    RoutingContext current = request.getCurrent();
    return current == null ? null : current.get(OF_REQUEST);
  }

  /** Gives the request a new token, and its browser the cookie that goes with it. */
  void renew(RoutingContext current) {
    byte[] token = new byte[16];
    random.nextBytes(token);
    current.put(OF_REQUEST, Base64.getUrlEncoder().withoutPadding().encodeToString(token));
    current
        .response()
        .addCookie(
            Cookie.cookie(cookieName, CsrfTokenUtils.signCsrfToken(token, key))
                .setHttpOnly(true)
                .setSecure(current.request().isSSL())
                .setMaxAge(cookieAge.toSeconds())
                .setPath("/"));
  }
}
