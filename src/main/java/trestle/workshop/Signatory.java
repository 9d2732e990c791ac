package trestle.workshop;

import jakarta.enterprise.context.RequestScoped;
import jakarta.inject.Inject;
import java.time.InstantSource;
import java.util.List;
import trestle.people.IdentityProof;
import trestle.people.Members;
import trestle.people.Proof;
import trestle.web.Form;
import trestle.web.Option;
import trestle.web.Viewer;

/** Who is about to sign on a page: under which licences, and the proof that it is them. */
@RequestScoped
class Signatory {
  @Inject Viewer viewer;
  @Inject Members members;
  @Inject IdentityProof identity;
  @Inject InstantSource clock;

  /** The licences that are good today. */
  List<Option> licences() {
    return WorkForm.licences(
        members.licencesOf(viewer, viewer.personId(), viewer.dateOf(clock.instant())));
  }

  Proof prove(Form form) {
    return identity.prove(viewer, form.value("password"));
  }
}
