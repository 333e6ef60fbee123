package entrapment.registry.meetings;

import entrapment.registry.access.DataCut;
import entrapment.registry.exports.Answer;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * All that a meeting shows, as of one cut.
 *
 * @param centre null for the network
 * @param chosen how the cases were chosen, in words
 */
record Content(
        @Nullable String centre,
        DataCut dataCut,
        Definition definition,
        String chosen,
        List<FollowUp> followUps,
        List<Answer> answers,
        List<PresentedCase> cases) {

    /**
     * An action of an earlier meeting.
     *
     * @param effect null before its day
     */
    record FollowUp(Action action, @Nullable Effect effect) {}
}
