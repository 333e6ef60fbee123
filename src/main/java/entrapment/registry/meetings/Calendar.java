package entrapment.registry.meetings;

import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.List;

/** The days on which actions are due, as iCalendar (RFC 5545): an all-day event each. */
final class Calendar {

    private static final DateTimeFormatter DAY = DateTimeFormatter.BASIC_ISO_DATE;
    private static final DateTimeFormatter STAMP =
            DateTimeFormatter.ofPattern("yyyyMMdd'T'HHmmss'Z'").withZone(ZoneOffset.UTC);

    /** Octets of a line without its end (section 3.1). */
    private static final int LONGEST_LINE = 75;

    private Calendar() {}

    static String of(List<Action> actions) {
        StringBuilder text = new StringBuilder();
        line(text, "BEGIN:VCALENDAR");
        line(text, "VERSION:2.0");
        line(text, "PRODID:-//entrapment-registry//meetings//EN");
        line(text, "CALSCALE:GREGORIAN");
        for (Action action : actions) {
            event(text, action);
        }
        line(text, "END:VCALENDAR");
        return text.toString();
    }

    private static void event(StringBuilder text, Action action) {
        Action.Plan plan = action.plan();
        line(text, "BEGIN:VEVENT");
        line(text, "UID:" + action.meeting() + "-" + action.number() + "@entrapment-registry");
        line(text, "DTSTAMP:" + stamp(action.changedAt()));
        line(text, "CREATED:" + stamp(action.createdAt()));
        line(text, "LAST-MODIFIED:" + stamp(action.changedAt()));
        line(text, "SEQUENCE:" + (action.version() - 1));
        line(text, "DTSTART;VALUE=DATE:" + DAY.format(plan.dueOn()));
        line(text, "DTEND;VALUE=DATE:" + DAY.format(plan.dueOn().plusDays(1)));
        line(text, "SUMMARY:" + escaped(plan.what()));
        line(
                text,
                "DESCRIPTION:"
                        + escaped("Owner: %s\nStatus: %s\nMeasured by: %s, %s before, %s after"
                                .formatted(
                                        plan.owner().label(),
                                        plan.status().label(),
                                        plan.measure().words(),
                                        plan.measure().before().words(),
                                        plan.measure().after().words())));
        line(text, "STATUS:" + (plan.status() == ActionStatus.DROPPED ? "CANCELLED" : "CONFIRMED"));
        line(text, "TRANSP:TRANSPARENT");
        line(text, "END:VEVENT");
    }

    private static String stamp(Instant instant) {
        return STAMP.format(instant);
    }

    /** As TEXT is written (section 3.3.11). */
    static String escaped(String text) {
        return text.replace("\\", "\\\\")
                .replace(";", "\\;")
                .replace(",", "\\,")
                .replace("\n", "\\n");
    }

    /** Folded so that no line is longer than may be, and no character is torn apart. */
    private static void line(StringBuilder text, String line) {
        int octets = 0;
        for (int index = 0; index < line.length(); ) {
            int character = line.codePointAt(index);
            String next = Character.toString(character);
            int width = next.getBytes(StandardCharsets.UTF_8).length;
            if (octets + width > LONGEST_LINE) {
                text.append("\r\n ");
                octets = 1;
            }
            text.append(next);
            octets += width;
            index += next.length();
        }
        text.append("\r\n");
    }
}
