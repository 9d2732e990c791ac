package trestle.web;

import jakarta.annotation.security.PermitAll;
import jakarta.annotation.security.RolesAllowed;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;

/** Addresses that no installation has, each failing in its way. */
@Path("/failing/{how}")
public class FailingPages {

  @GET
  @PermitAll
  public String fail(@PathParam("how") String how) {
    throw switch (how) {
      case "stale" -> new Stale("M. Oduya filed a revision at 14:10. Look at both.");
      case "not-here" -> new NotHere("There is no aircraft QX-ZZZ.");
      case "refused" -> new Refusal("", "A retired aircraft flies no more.");
      default -> new IllegalStateException("secret inner words");
    };
  }

  @GET
  @Path("owners-only")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER})
  public String owners() {
    return "for owners";
  }
}
