package entrapment.registry.cases.web;

import entrapment.registry.access.Viewer;
import entrapment.registry.cases.IfMatch;
import entrapment.registry.cases.StoredCase;
import org.jspecify.annotations.Nullable;
import org.springframework.web.util.UriUtils;

/**
 * A case being filled in, by whom and for which centre.
 *
 * @param centre empty where the steward has not chosen yet
 * @param stored the case that is changed; null for a new one
 * @param form what stands on the form
 * @param version the entity tag that the change began with; empty for a new case
 */
record CaseEntry(Viewer viewer, String centre, @Nullable StoredCase stored, CaseForm form, String version) {

    /** For the centre that was asked for, or the viewer's own. */
    static CaseEntry of(Viewer viewer, String asked, @Nullable StoredCase stored, CaseForm form, String version) {
        String own = viewer.centre();
        String centre = asked.isEmpty() && own != null ? own : asked;
        if (!centre.isEmpty()) {
            viewer.requireOwn(centre);
        }
        return new CaseEntry(viewer, centre, stored, form, version);
    }

    CaseEntry with(CaseForm other) {
        return new CaseEntry(viewer, centre, stored, other, version);
    }

    /** The same after somebody else's change was shown. */
    CaseEntry from(StoredCase newest) {
        return new CaseEntry(viewer, centre, stored, form, newest.etag());
    }

    String path() {
        return stored == null ? "/report-a-case" : path(centre, stored.caseKey()) + "/edit";
    }

    /** The address of a case. */
    static String path(String centre, String caseKey) {
        return "/cases/" + UriUtils.encode(centre, "UTF-8") + "/" + UriUtils.encode(caseKey, "UTF-8");
    }

    /** Whether what is stored is no longer what the change began with. */
    boolean overtaken() {
        return stored != null && !version.equals(stored.etag());
    }

    /** What the change is allowed to replace. */
    IfMatch ifMatch() {
        return IfMatch.of(stored == null ? null : version);
    }
}
