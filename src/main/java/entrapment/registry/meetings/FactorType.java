package entrapment.registry.meetings;

import entrapment.registry.vocabulary.Code;

/** Where a contributing factor lies. */
public enum FactorType implements Code {
    PATIENT("Patient", "Condition, anatomy, communication with the patient."),
    TASK("Task", "Guidelines and protocols: whether there are any, clear and used."),
    INDIVIDUAL("Individual", "Knowledge, skill and health of staff; never of a named person."),
    TEAM("Team", "Communication, supervision, asking for help."),
    EQUIPMENT("Equipment", "Devices and bail-out equipment: availability, fitness, sizes."),
    ENVIRONMENT("Work environment", "Staffing, workload, time of day, room."),
    ORGANISATION("Organisation", "Policy, money, priorities, safety culture.");

    private final Coding coding;

    FactorType(String label, String definition) {
        coding = Coding.of(this, label, definition, "Vincent C, Taylor-Adams S, Stanhope N, BMJ 1998;316:1154-1157");
    }

    @Override
    public Coding coding() {
        return coding;
    }
}
