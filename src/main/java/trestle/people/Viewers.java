package trestle.people;

import io.quarkus.security.identity.SecurityIdentity;
import jakarta.enterprise.context.Dependent;
import jakarta.enterprise.context.RequestScoped;
import jakarta.enterprise.inject.Produces;
import jakarta.inject.Inject;
import trestle.web.Viewer;

/** Gives pages the viewer of their request; before signing in it is nobody, in no operator. */
@RequestScoped
class Viewers {
  @Inject SecurityIdentity identity;

  @Produces
  @Dependent
  Viewer viewer() {
    Viewer viewer = identity.getAttribute(SessionAuthentication.VIEWER);
    return viewer == null ? Anyone.VIEWER : viewer;
  }
}
