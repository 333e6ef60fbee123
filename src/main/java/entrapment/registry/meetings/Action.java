package entrapment.registry.meetings;

import com.fasterxml.jackson.annotation.JsonProperty;
import entrapment.registry.intake.Fields;
import entrapment.registry.intake.Identifying;
import java.time.Instant;
import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import org.jspecify.annotations.Nullable;

/**
 * What a meeting agreed.
 *
 * @param meeting the meeting's id
 * @param number within the meeting, from 1
 * @param version 1 as it was agreed, then 2, 3, …
 * @param overdue whether it was open after its day when it was looked at
 */
public record Action(
        String meeting, int number, Plan plan, int version, Instant createdAt, Instant changedAt, boolean overdue) {

    private static final int LONGEST_TEXT = 200;
    private static final LocalDate FARTHEST = LocalDate.of(2100, 12, 31);

    /**
     * What is sent of it.
     *
     * @param owner who sees to it: a role, never a person
     */
    public record Plan(String what, OwnerRole owner, LocalDate dueOn, Measure measure, ActionStatus status) {

        static Plan read(Fields fields, PeriodRange meeting) {
            String what = Identifying.label(fields, "what", LONGEST_TEXT);
            OwnerRole owner = fields.requiredCode("owner", OwnerRole.class);
            LocalDate dueOn = day(fields, "dueOn");
            return new Plan(
                    what,
                    owner,
                    dueOn == null ? FARTHEST : dueOn,
                    fields.object("measure", measure -> Measure.read(measure, meeting, dueOn)),
                    fields.code("status", ActionStatus.class, ActionStatus.OPEN));
        }

        private static @Nullable LocalDate day(Fields fields, String name) {
            String text = fields.requiredText(name);
            try {
                LocalDate day = text.matches("20[0-9]{2}-[0-9]{2}-[0-9]{2}") ? LocalDate.parse(text) : null;
                if (day != null) {
                    return day;
                }
            } catch (DateTimeParseException noSuchDay) {
                // Refused below, as any other text that is no day.
            }
            if (!text.isEmpty()) {
                fields.refuse(name, "not-a-day", name + " must be a day, YYYY-MM-DD");
            }
            return null;
        }
    }

    /** The entity tag of this version, as HTTP writes it. */
    public String etag() {
        return "\"" + version + "\"";
    }

    @JsonProperty
    boolean open() {
        return plan.status() == ActionStatus.OPEN;
    }

    /** One line of a slide. */
    String line() {
        return "%s%s (%s, due %s, %s; measured by %s)"
                .formatted(
                        overdue ? "Overdue: " : "",
                        plan.what(),
                        plan.owner().label(),
                        plan.dueOn(),
                        plan.status().code(),
                        plan.measure().words());
    }
}
