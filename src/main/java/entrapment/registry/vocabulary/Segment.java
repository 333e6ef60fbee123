package entrapment.registry.vocabulary;

/** The field {@code segment}: the sixteen-segment numbering of the coronary tree. */
public enum Segment implements Code {
    S1(
            "1",
            "1 proximal right coronary",
            "From the right ostium to half the distance to the acute margin of the heart."),
    S2("2", "2 mid right coronary", "From the end of segment 1 to the acute margin of the heart."),
    S3(
            "3",
            "3 distal right coronary",
            "From the acute margin of the heart to the origin of the posterior descending artery."),
    S4(
            "4",
            "4 posterior descending from the right",
            "Posterior descending artery in the interventricular groove, from a dominant right coronary artery."),
    S5("5", "5 left main", "From the left ostium to the division into anterior descending and circumflex artery."),
    S6(
            "6",
            "6 proximal anterior descending",
            "From the origin up to and including the origin of the first major septal branch."),
    S7(
            "7",
            "7 mid anterior descending",
            "From the first major septal branch to half the distance from there to the apex."),
    S8(
            "8",
            "8 apical anterior descending",
            "From the end of segment 7 to the end of the artery at or beyond the apex."),
    S9("9", "9 first diagonal", "First diagonal branch, from segment 6 or 7; 9a is coded here."),
    S10("10", "10 second diagonal", "Second diagonal branch, from segment 8 or its border with 7; 10a is coded here."),
    S11(
            "11",
            "11 proximal circumflex",
            "From the origin up to and including the origin of the first obtuse marginal branch."),
    S12(
            "12",
            "12 intermediate or obtuse marginal",
            "Intermediate branch of a left main that divides in three, or an obtuse marginal (12a, 12b)."),
    S13(
            "13",
            "13 distal circumflex",
            "Circumflex in the atrioventricular groove beyond the origin of the last obtuse marginal branch."),
    S14("14", "14 left posterolateral", "Posterolateral branch of the circumflex, 14a and 14b included."),
    S15(
            "15",
            "15 posterior descending from the left",
            "Posterior descending artery in the interventricular groove, from a dominant circumflex."),
    S16("16", "16 right posterolateral", "Posterolateral branch of the right coronary artery, 16a to 16c included.");

    private final Coding coding;

    Segment(String code, String label, String definition) {
        coding = new Coding(code, label, definition, Sources.SYNTAX);
    }

    @Override
    public Coding coding() {
        return coding;
    }
}
