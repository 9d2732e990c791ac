package trestle.people;

import io.quarkus.vertx.http.runtime.security.PersistentLoginManager;
import io.vertx.core.http.Cookie;
import io.vertx.core.http.CookieSameSite;
import io.vertx.ext.web.RoutingContext;
import jakarta.enterprise.context.ApplicationScoped;
import java.time.Duration;
import java.util.Optional;
import java.util.UUID;
import org.eclipse.microprofile.config.inject.ConfigProperty;

/**
 * The session's id in a cookie, encrypted under the installation's key so that every node reads it.
 * The cookie proves nothing by itself: the session's row is asked on each request.
 */
@ApplicationScoped
class SessionCookie {
  private static final String NAME = "trestle-session";
  private static final long FORTNIGHT = SignIns.SESSION.toMillis();
  private static final long RENEW_DAILY = Duration.ofDays(1).toMillis();

  private final PersistentLoginManager cookies;

  SessionCookie(@ConfigProperty(name = "trestle.session.key") String key) {
    cookies =
        new PersistentLoginManager(
            key, NAME, FORTNIGHT, RENEW_DAILY, true, "LAX", "/", SignIns.SESSION.toSeconds(), null);
  }

  Optional<UUID> session(RoutingContext request) {
    var found = cookies.restore(request);
    if (found == null || found.getPrincipal() == null) {
      return Optional.empty();
    }
    try {
      return Optional.of(UUID.fromString(found.getPrincipal()));
    } catch (IllegalArgumentException e) {
      return Optional.empty();
    }
  }

  void give(RoutingContext request, UUID session) {
    cookies.save(session.toString(), request, NAME, null, request.request().isSSL());
  }

  void take(RoutingContext request) {
    request
        .response()
        .addCookie(
            Cookie.cookie(NAME, "")
                .setMaxAge(0)
                .setPath("/")
                .setHttpOnly(true)
                .setSameSite(CookieSameSite.LAX));
  }
}
