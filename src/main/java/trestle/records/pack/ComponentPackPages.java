package trestle.records.pack;

import jakarta.annotation.security.RolesAllowed;
import jakarta.enterprise.context.RequestScoped;
import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.core.Response;
import java.util.UUID;
import trestle.web.Allow;

/** What is in a component's record pack; beside the other pages of components. */
@Path("/components/{id}/record-pack")
@RequestScoped
public class ComponentPackPages {
  @Inject RecordPackPages pages;

  @GET
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.AUDITOR})
  public Response ofComponent(@PathParam("id") UUID id) {
    return pages.page(PackSubject.component(id));
  }
}
