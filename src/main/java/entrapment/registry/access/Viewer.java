package entrapment.registry.access;

import entrapment.registry.intake.Problem;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Who asks.
 *
 * @param keyId the key that was shown, for the record of what happened
 * @param centre the one centre of a submitter or analyst; null for the steward, who may act on every centre
 */
public record Viewer(String keyId, Role role, @Nullable String centre) {

    public boolean isSteward() {
        return role == Role.STEWARD;
    }

    /** Refuses everybody but the steward. */
    public void requireSteward() {
        if (!isSteward()) {
            throw Problem.NOT_YOUR_ROLE.refusal("Only the network's steward may do this.");
        }
    }

    /** Refuses another centre's key as if the centre were not there, so that nobody learns what others have. */
    public void requireOwn(String asked) {
        if (!isSteward() && !asked.equals(centre)) {
            throw Problem.NOT_FOUND.refusal("There is nothing here for your centre.");
        }
    }

    /** Refuses an analyst, who reads but does not send. */
    public void requireSubmitter() {
        if (role == Role.ANALYST) {
            throw Problem.NOT_YOUR_ROLE.refusal("An analyst's key reads; sending needs a submitter's key.");
        }
    }

    /**
     * The centres that a report may count for this viewer: those asked for, or else the own centre for a submitter and
     * the whole network for the others, who then see it with other centres masked.
     *
     * @param asked already refused if not the viewer's own; empty for no particular one
     * @return empty for the whole network
     */
    public List<String> sees(List<String> asked) {
        return asked.isEmpty() && role == Role.SUBMITTER && centre != null ? List.of(centre) : asked;
    }
}
