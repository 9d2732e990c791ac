package trestle.people;

import io.quarkus.security.identity.IdentityProviderManager;
import io.quarkus.security.identity.SecurityIdentity;
import io.quarkus.security.runtime.QuarkusSecurityIdentity;
import io.quarkus.vertx.http.runtime.security.ChallengeData;
import io.quarkus.vertx.http.runtime.security.HttpAuthenticationMechanism;
import io.smallrye.mutiny.Uni;
import io.smallrye.mutiny.infrastructure.Infrastructure;
import io.vertx.ext.web.RoutingContext;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.security.Principal;
import java.time.InstantSource;
import java.util.Optional;
import java.util.UUID;
import trestle.web.Allow;
import trestle.web.Role;
import trestle.web.Viewer;

/** Tells from the session cookie who is asking. Paths under /api take no cookie. */
@ApplicationScoped
class SessionAuthentication implements HttpAuthenticationMechanism {
  static final String VIEWER = "trestle.viewer";
  static final String SESSION = "trestle.session";

  @Inject SessionCookie cookie;
  @Inject ViewerRepository viewers;
  @Inject InstantSource clock;

  @Override
  public Uni<SecurityIdentity> authenticate(
      RoutingContext request, IdentityProviderManager providers) {
    if (needsNobody(request.normalizedPath())) {
      return Uni.createFrom().nullItem();
    }
    Optional<UUID> session = cookie.session(request);
    if (session.isEmpty()) {
      return Uni.createFrom().nullItem();
    }
    return Uni.createFrom()
        .item(() -> identity(session.get()))
        .runSubscriptionOn(Infrastructure.getDefaultWorkerPool());
  }

  @Override
  public Uni<ChallengeData> getChallenge(RoutingContext request) {
    return Uni.createFrom().item(new ChallengeData(401));
  }

  private static boolean needsNobody(String path) {
    return path.startsWith("/api/") || path.startsWith("/assets/") || path.startsWith("/q/");
  }

  private SecurityIdentity identity(UUID session) {
    return viewers
        .viewerOf(session, clock.instant())
        .map(viewer -> identity(viewer, session))
        .orElse(null);
  }

  private static SecurityIdentity identity(Viewer viewer, UUID session) {
    Principal principal = viewer.personId()::toString;
    var identity =
        QuarkusSecurityIdentity.builder()
            .setPrincipal(principal)
            .addAttribute(VIEWER, viewer)
            .addAttribute(SESSION, session);
    viewer.roles().stream().map(Role::word).forEach(identity::addRole);
    if (viewer.administrator()) {
      identity.addRole(Allow.ADMINISTRATOR);
    }
    return identity.build();
  }
}
