package entrapment.registry.intake;

import java.util.List;

/** What is wrong with a submission, as a test reads it. */
public final class FieldErrors {

    private FieldErrors() {}

    /** Each error as its pointer and code, {@code "/lesion/vessel not-a-code"}, in order; empty where nothing is wrong. */
    public static List<String> in(Reading<?> reading) {
        return reading instanceof Reading.Refused<?> refused ? in(refused.errors()) : List.of();
    }

    public static List<String> in(List<FieldError> errors) {
        return errors.stream()
                .map(error -> error.pointer() + " " + error.code())
                .toList();
    }
}
