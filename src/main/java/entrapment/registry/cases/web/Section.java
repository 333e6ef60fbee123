package entrapment.registry.cases.web;

import entrapment.registry.vocabulary.Field;
import java.util.List;
import java.util.Locale;

/** The parts of a case in the order people think of them, the attempts aside; what matters less stands last. */
enum Section {
    STUCK(
            Field.DEVICE_CLASS,
            Field.DEVICE_SIZE_MM,
            Field.DEVICE_IDENTIFIER,
            Field.MECHANISM,
            Field.PHASE,
            Field.FRACTURED),
    WHERE(
            Field.VESSEL,
            Field.POSITION,
            Field.SEGMENT,
            Field.CALCIFICATION,
            Field.TORTUOSITY,
            Field.ANGULATION,
            Field.TOTAL_OCCLUSION,
            Field.STENT_LAYERS),
    /** After this one come the attempts. */
    STATE(Field.HAEMODYNAMICS, Field.TIMI_FLOW, Field.SHOCK_STAGE),
    OUT(Field.RELEASE, Field.FRAGMENT),
    PATIENT(
            Field.HARM,
            Field.PROCEDURE_END,
            Field.FINAL_TIMI_FLOW,
            Field.DISSECTION,
            Field.PERFORATION,
            Field.COMPLICATIONS,
            Field.MI_DEFINITION),
    REST(
            Field.GUIDE_FRENCH,
            Field.ACCESS_SITE,
            Field.OPERATOR_STAGE,
            Field.AGE_BAND,
            Field.SEX,
            Field.PRESENTATION,
            Field.URGENCY),
    KEPT(Field.PERIOD, Field.CASE_KEY, Field.PROCEDURE_KEY);

    @SuppressWarnings("ImmutableEnumChecker") // the list is made by List.of
    private final List<Field> fields;

    Section(Field... fields) {
        this.fields = List.of(fields);
    }

    /** Its name on pages. */
    String code() {
        return name().toLowerCase(Locale.ROOT);
    }

    List<Field> fields() {
        return fields;
    }

    boolean beforeAttempts() {
        return compareTo(STATE) <= 0;
    }
}
