package entrapment.registry.vocabulary;

/** The field {@code ageBand}: the patient's age at the procedure, in five-year bands and nothing finer. */
public enum AgeBand implements Code {
    UNDER_40(
            "under-40",
            "Under 40",
            "Under 40 completed years at the procedure; younger ages are one band, for privacy."),
    FROM_40_TO_44("40-44", "40 to 44", "From 40 to 44 completed years at the procedure, both included."),
    FROM_45_TO_49("45-49", "45 to 49", "From 45 to 49 completed years at the procedure, both included."),
    FROM_50_TO_54("50-54", "50 to 54", "From 50 to 54 completed years at the procedure, both included."),
    FROM_55_TO_59("55-59", "55 to 59", "From 55 to 59 completed years at the procedure, both included."),
    FROM_60_TO_64("60-64", "60 to 64", "From 60 to 64 completed years at the procedure, both included."),
    FROM_65_TO_69("65-69", "65 to 69", "From 65 to 69 completed years at the procedure, both included."),
    FROM_70_TO_74("70-74", "70 to 74", "From 70 to 74 completed years at the procedure, both included."),
    FROM_75_TO_79("75-79", "75 to 79", "From 75 to 79 completed years at the procedure, both included."),
    FROM_80_TO_84("80-84", "80 to 84", "From 80 to 84 completed years at the procedure, both included."),
    FROM_85_TO_89("85-89", "85 to 89", "From 85 to 89 completed years at the procedure, both included."),
    NINETY_OR_OVER(
            "90-or-over",
            "90 or over",
            "90 completed years or more at the procedure; the oldest are one band, for privacy."),
    UNKNOWN("unknown", "Unknown", "Not recorded, or the record does not tell.");

    private final Coding coding;

    AgeBand(String code, String label, String definition) {
        coding = new Coding(code, label, definition, Sources.CONVENTION);
    }

    @Override
    public Coding coding() {
        return coding;
    }
}
