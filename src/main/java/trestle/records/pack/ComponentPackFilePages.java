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

/** A component's record pack as the file itself. */
@Path("/components/{id}/record-pack.zip")
@RequestScoped
public class ComponentPackFilePages {
  @Inject RecordPackPages pages;

  @GET
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.AUDITOR})
  public Response zipOfComponent(@PathParam("id") UUID id) {
    return pages.zip(PackSubject.component(id));
  }
}
