package entrapment.registry.meetings;

import com.fasterxml.jackson.annotation.JsonIgnore;
import entrapment.registry.access.DataCut;
import java.time.Instant;

/**
 * A meeting as it was frozen.
 *
 * @param number 1 for the first time it was frozen, then 2, 3, …
 * @param dataCut every figure of it is counted as of this
 * @param program the version of the service that froze it
 * @param definition what no revision holds
 */
public record FrozenMeeting(
        int number,
        DataCut dataCut,
        Instant frozenAt,
        String program,
        @JsonIgnore Definition definition) {}
